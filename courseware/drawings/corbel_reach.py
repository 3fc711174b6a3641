"""A corbel that is still to be divided into courses: the wall in section, and how far its top course must stand out.

Between the wall's foot and the top course the section is broken: how many courses project is for the learner to find.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bed_of
from courseware.drawings.broken_height import BrokenHeight, reach
from courseware.drawings.dimension import Marks, across, lane, name
from courseware.drawings.frame import cut_through, framed
from courseware.drawings.level_marks import level
from courseware.drawings.lines import HIDDEN
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (44.0, 28.0)  # mm of paper for the section, its gap left out
_FOOT, _OVER = 2, 1  # courses drawn at the foot, and over the top of the corbel


def draw_corbel_reach(call: DrawingCall) -> Picture:
    """The picture of course `top_course` standing `reach` mm out from the face of a wall `wall` mm thick."""
    brick, course = call.format, int(Fraction(call.figures["top_course"]))
    out, thick = Fraction(call.figures["reach"]), Fraction(call.figures["wall"])
    low, high = _FOOT * brick.course, (course - 1) * brick.course
    head = (course + _OVER) * brick.course
    scale = one_to(thick + out, reach(low, high, head), _ROOM, least=10)
    view = BrokenHeight(one_to=scale, low=low, high=high)
    foot = _cut(view, range(_FOOT), Fraction(0), thick, call)
    top = _cut(view, range(course - 1, course + _OVER), -out, thick, call)
    marks: Marks = (
        *cut_through(foot),
        *cut_through(top, "out"),
        view.rule((0, low), (0, high), pen=HIDDEN),
        *view.break_lines(0, thick),
        *level(view.at(0, 0), "datum", 16.0, below=True),
        name((view.at(thick, 0)[0] + 2, view.at(0, bed_of(course - 1, brick)[0])[1]), f"course {course}"),
        name((view.at(0, 0)[0], view.at(0, 0)[1] + 5), "section"),
    )
    if "reach" in call.labels:
        line = view.at(0, head)[1] - 4
        marks += across(view.at(-out, head), view.at(0, head), line, call.labels["reach"], before=True)
    if "wall" in call.labels:
        line = view.at(0, 0)[1] + lane(call.labels) + 5.5
        marks += across(view.at(0, 0), view.at(thick, 0), line, call.labels["wall"])
    return framed(marks, call.alt, view.one_to, ("whole", "out"))


def _cut(
    view: BrokenHeight, rows: range, left: Fraction, right: Fraction, call: DrawingCall
) -> tuple[tuple[tuple[float, float], ...], ...]:
    """The courses cut through, on paper."""
    beds = (bed_of(row, call.format) for row in rows)
    cut = (PlacedBrick(left=float(left), bottom=under, right=float(right), top=top) for under, top in beds)
    return tuple(view.box(b.left, b.bottom, b.right, b.top) for b in cut)
