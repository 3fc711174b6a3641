"""A dog-tooth course from above: bricks laid flat at 45 degrees, corners at the face; its middle is broken out."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.broken import break_lines, broken
from courseware.drawings.dimension import Marks, across, lane, name
from courseware.drawings.frame import framed
from courseware.drawings.lines import HIDDEN
from courseware.drawings.looks import bricks_of
from courseware.drawings.picture import Picture
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, Run, dog_tooth

_ROOM = (125.0, 45.0)  # mm of paper for the brickwork
Outline = tuple[tuple[Fraction, Fraction], ...]


def draw_dog_tooth(call: DrawingCall) -> Picture:
    """The picture of the whole teeth in `length` mm, `joint` mm between two bricks; the face of the wall is below.

    What is left of the length after the last tooth stays plain.
    """
    brick, length = call.format, Fraction(call.figures["length"])
    found = dog_tooth(length, brick, Fraction(call.figures["joint"]))
    run = Run(pieces=found.teeth, pitch=found.pitch, joint=found.pitch - found.wide)
    view = broken(run, found.wide, brick.width, _ROOM, most=3, over=brick.width - found.wide / 2)
    corners = [found.wide / 2 + n * found.pitch for n in range(found.teeth)]
    shown = [at for at in corners if not view.kept < at < view.length - view.kept]
    teeth = tuple(tuple(view.at(x, y) for x, y in tooth(at, found.wide / 2, brick, view.length)) for at in shown)
    ends = view.at(view.length, 0)[0] + float(length - view.length) / view.one_to, view.at(0, brick.width)[1]
    marks: Marks = (
        *bricks_of("whole", teeth),
        view.rule((0, 0), (view.kept, 0), pen=HIDDEN),
        HIDDEN.stroke((view.at(view.length - view.kept, 0), (ends[0], view.at(0, 0)[1]))),
        *break_lines(view, Fraction(0), brick.width),
        name((view.at(0, 0)[0] - 1.5, view.at(0, 0)[1] + 1), "face", anchor="end"),
    )
    if "pitch" in call.labels:
        line = view.at(0, 0)[1] + lane(call.labels)
        marks += across(view.at(corners[0], 0), view.at(corners[1], 0), line, call.labels["pitch"])
    if "length" in call.labels:
        line = ends[1] - 6
        marks += across(view.at(0, brick.width), ends, line, call.labels["length"])
    return framed(marks, call.alt, view.one_to)


def tooth(corner: Fraction, reach: Fraction, brick: Format, end: Fraction) -> Outline:
    """A brick seen from above, its corner at the face, as far back as a half-brick wall is thick and cut at `end`.

    `reach` is half its width along the wall: so far to the left, and so far back, its end lies.
    """
    back = brick.width
    right = min(corner + back, end)
    tip = ((right, right - corner),) if right - corner == back else ((right, right - corner), (right, back))
    return ((corner, Fraction(0)), *tip, (corner - 2 * reach + back, back), (corner - reach, reach))
