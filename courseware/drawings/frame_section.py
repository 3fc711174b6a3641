"""A wall in section from the floor up, through the projecting frame of a panel, with the eye line across it."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, copysign

from courseware.drawings.bond import PlacedBrick, section
from courseware.drawings.dimension import LANE, Marks, name, upright
from courseware.drawings.eye import DASH, eye
from courseware.drawings.frame import View, datum, framed
from courseware.drawings.picture import Picture, Point, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format

_HIGH = 54.0  # mm of paper for the wall
_ABOVE = 2  # courses over the opening
_CLEAR = 3.4  # mm of paper between the eye line and the name of a run
_EYE = 34.0  # mm of paper that the eye stands before the wall


def draw_frame_section(call: DrawingCall) -> Picture:
    """The picture of an opening of `courses` over `below` courses of wall, its frame `projects` mm before the face.

    The wall's face is at 0 and what stands out lies to the left of it, as in every section of ours; the floor is the
    datum of all heights.
    """
    brick, figures = call.format, call.figures
    below, courses = int(Fraction(figures["below"])), int(Fraction(figures["courses"]))
    eye, out = Fraction(figures["eye_height"]), Fraction(figures["projects"])
    rows = max(below + courses + _ABOVE, ceil(eye / brick.course) + 1)
    view = View(one_to=one_to(1, rows * brick.course, (1, _HIGH), least=25))
    runs, wall, panel = cut_through(below, courses, rows, out, brick)
    left, right = view.at(-out, 0)[0] - 5, view.at(brick.width, 0)[0]
    marks: Marks = (
        *view.bricks(wall, joint=brick.bed),
        *view.bricks(panel, "plain", joint=brick.bed),
        *view.bricks(runs, "out", joint=brick.bed),
        *datum((left, 0), (right, 0), "floor"),
        *_eye(view.at(0, eye), right),
    )
    for height, says in ((runs[1].top, "top run"), (runs[0].top, "bottom run")):
        x, y = view.at(-out, height - float(brick.width) / 2)
        from_eye = y - view.at(0, eye)[1]
        clear = copysign(max(_CLEAR - abs(from_eye), 0), from_eye)  # away from the eye line
        marks += (name((x - 2, y + clear + 1), says, anchor="end"),)
    sizes = {"bottom_run_height": runs[0].top, "top_run_height": runs[1].top, "eye_height": float(eye)}
    line = right
    for dimension, size in sorted(sizes.items(), key=lambda item: item[1]):
        if dimension in call.labels:
            line += LANE
            marks += upright((right, 0), (right, view.at(0, size)[1]), line, call.labels[dimension])
    return framed(marks, call.alt, view.one_to)


def cut_through(
    below: int, courses: int, rows: int, out: Fraction, brick: Format
) -> tuple[tuple[PlacedBrick, PlacedBrick], tuple[PlacedBrick, ...], tuple[PlacedBrick, ...]]:
    """The two runs of the frame, the courses of the wall below and above the opening, and those of the panel."""
    first = float(below * brick.course + brick.bed)
    last = float((below + courses) * brick.course)
    deep = float(brick.width)
    runs = tuple(
        PlacedBrick(left=-float(out), bottom=low, right=deep - float(out), top=low + deep)
        for low in (first, last - deep)
    )
    wall = tuple(section(row, brick) for row in (*range(below), *range(below + courses, rows)))
    start, count = first + deep + float(brick.bed), courses - 3
    panel = tuple(
        PlacedBrick(left=0, bottom=low, right=deep, top=low + float(brick.height))
        for low in (start + n * float(brick.course) for n in range(count))
    )
    return (runs[0], runs[1]), wall, panel


def _eye(at: Point, end: float) -> Marks:
    """The dashed line from the eye to the wall, with the eye and its name."""
    x, y = at[0] - _EYE, at[1]
    return (
        Stroke(outlines=(((x, y), (end + 2, y)),), weight=0.25, dash=DASH),
        *eye((x, y)),
        name((x - 2.4, y - 2.4), "eye line"),
    )
