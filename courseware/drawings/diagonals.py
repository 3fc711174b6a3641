"""A set-out rectangle with both diagonals, for squaring."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, across, lane, led, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.lines import CUT, HIDDEN, SYMBOL
from courseware.drawings.picture import Picture, Point, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (110.0, 64.0)  # mm of paper for the rectangle
_SQUARE = 3.0  # mm of paper: the mark of a square corner


def draw_diagonals(call: DrawingCall) -> Picture:
    """The picture of a rectangle `width` by `height` mm; the figure of a diagonal is led out to the upper left."""
    wide, high = Fraction(call.figures["width"]), Fraction(call.figures["height"])
    view = View(one_to=one_to(wide, high, _ROOM))
    corner, other = view.at(0, 0), view.at(wide, high)
    marks: Marks = (
        CUT.stroke(view.box(0, 0, wide, high), closed=True),
        _square_corners(corner, other),
        view.rule((0, 0), (wide, high), pen=HIDDEN),
        view.rule((0, high), (wide, 0), pen=HIDDEN),
    )
    if "width" in call.labels:
        marks += across(corner, view.at(wide, 0), corner[1] + lane(call.labels), call.labels["width"])
    if "height" in call.labels:
        marks += upright(view.at(wide, 0), other, other[0] + lane(call.labels), call.labels["height"])
    if "diagonal" in call.labels:
        point = view.at(wide / 4, high * 3 / 4)
        marks += led(point, (point[0] - 1.5, other[1] - 2.5), call.labels["diagonal"])
    return framed(marks, call.alt, view.one_to)


def _square_corners(foot: Point, head: Point) -> Stroke:
    """The small squares that mark a right angle, inside each corner."""
    side = min(_SQUARE, (head[0] - foot[0]) / 4, (foot[1] - head[1]) / 4)
    return SYMBOL.stroke(
        *(
            ((x + a * side, y), (x + a * side, y + b * side), (x, y + b * side))
            for x, a in ((foot[0], 1), (head[0], -1))
            for y, b in ((foot[1], -1), (head[1], 1))
        )
    )
