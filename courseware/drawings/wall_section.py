"""A wall in section on its foundation, its middle broken out: free-standing, or the outer leaf of a cavity wall.

The face is at 0 and the wall lies to the right of it. Cavity, blocks, ties, foundation and coping are as is usual:
common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.broken import break_line
from courseware.drawings.dimension import THIN, Marks, across, name
from courseware.drawings.frame import BRICK, HALF_BRICK, View, framed
from courseware.drawings.hatching import hatching
from courseware.drawings.picture import Picture, Stroke
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, wall_thickness

_ONE_TO = 20
_LOW, _HIGH = 4, 4  # courses drawn at the foot and at the head
_GAP = 6.0  # mm of paper between them
_CAVITY, _BLOCK = Fraction(100), Fraction(100)  # mm
_SPREAD, _DEEP = Fraction(150), Fraction(150)  # mm: the foundation beyond the wall, and its depth
_COPING, _OVER = Fraction(75), Fraction(45)  # mm: its height, and beyond the wall
Box = tuple[Fraction, Fraction, Fraction, Fraction]


def draw_wall_section(call: DrawingCall) -> Picture:
    """The picture of a wall `thickness` bricks thick, `built` free-standing or with a cavity behind it."""
    brick, cavity = call.format, call.figures["built"] == "cavity"
    thick = wall_thickness(Fraction(call.figures["thickness"]), brick)
    low = View(one_to=_ONE_TO)
    high = View(one_to=_ONE_TO, origin=(0.0, -float(_LOW * brick.course) / _ONE_TO - _GAP))
    bricks = [(low, b) for row in range(_LOW) for b in course(row, thick, brick)]
    bricks += [(high, b) for row in range(_HIGH) for b in course(row, thick, brick)]
    back = thick + (_CAVITY + _BLOCK if cavity else 0)
    head = _HIGH * brick.course
    outlines = tuple(view.box(*b) for view, b in bricks)
    ground = (low.box(-_SPREAD, -_DEEP, back + _SPREAD, 0),)
    marks: Marks = (
        Stroke(outlines=outlines, closed=True, weight=0.35, fill=BRICK),
        hatching(*outlines),
        Stroke(outlines=ground, closed=True, weight=0.35, fill=HALF_BRICK),
        name((low.at(back + _SPREAD, -_DEEP)[0] + 2, low.at(0, -_DEEP / 2)[1] + 1), "foundation"),
    )
    if cavity:
        marks += _blocks(low, high, thick, brick)
        top = (high.at(0, head)[1] - 1.0, back)
    else:
        marks += _coping(high, thick, head)
        top = None
    y = (low.at(0, _LOW * brick.course)[1] + high.at(0, 0)[1]) / 2
    ends = low.at(-60, 0)[0], low.at(back + 60, 0)[0]
    levels = [y + 1.0, y - 1.0] + ([top[0] - 0.5] if top else [])
    marks += (Stroke(outlines=tuple(break_line((ends[0], at), (ends[1], at)) for at in levels), weight=THIN),)
    if "thickness" in call.labels:
        left, right = low.at(0, -_DEEP), low.at(thick, -_DEEP)
        marks += across(left, right, left[1] + 10.5, call.labels["thickness"])
    return framed(marks, call.alt)


def course(row: int, thick: Fraction, brick: Format) -> tuple[Box, ...]:
    """The bricks of a course cut through: one; in a wall a brick thick by turns a header and two stretchers."""
    under = row * brick.course + brick.bed
    top = under + brick.height
    if thick <= brick.width or row % 2 == 0:
        return ((Fraction(0), under, thick, top),)
    return ((Fraction(0), under, brick.width, top), (thick - brick.width, under, thick, top))


def _blocks(low: View, high: View, thick: Fraction, brick: Format) -> Marks:
    near, far, module = thick + _CAVITY, thick + _CAVITY + _BLOCK, 3 * brick.course
    outlines = (
        low.box(near, brick.bed, far, module),
        low.box(near, module + brick.bed, far, module + brick.course),
        high.box(near, 0, far, brick.course),
        high.box(near, brick.course + brick.bed, far, module + brick.course),
    )
    ties = tuple(
        (view.at(thick - brick.half / 2, y), view.at(thick + _CAVITY / 2, y), view.at(near + brick.half / 2, y))
        for view, y in ((low, module + brick.bed / 2), (high, brick.course + brick.bed / 2))
    )
    middle = high.at(far, brick.course * 3)
    tie = high.at(near + brick.half / 2, brick.course + brick.bed / 2)
    return (
        Stroke(outlines=outlines, closed=True, weight=0.35, fill=1.0),
        hatching(*outlines, apart=3.2),
        Stroke(outlines=ties, weight=0.7),
        name((middle[0] + 2, middle[1] + 1), "blocks"),
        Stroke(outlines=((tie, (middle[0] + 1, tie[1])),), weight=THIN),
        name((middle[0] + 2, tie[1] + 1), "tie"),
    )


def _coping(view: View, thick: Fraction, head: Fraction) -> Marks:
    left, right = view.at(-_OVER, head + 10), view.at(thick + _OVER, head + 10 + _COPING)
    middle = (left[0] + right[0]) / 2
    outline = (left, (right[0], left[1]), (right[0], right[1] + 1.2), (middle, right[1]), (left[0], right[1] + 1.2))
    return (
        Stroke(outlines=(outline,), closed=True, weight=0.35, fill=HALF_BRICK),
        name((right[0] + 2, (left[1] + right[1]) / 2 + 1), "coping"),
    )
