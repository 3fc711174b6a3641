"""A set-out rectangle with both diagonals, for squaring."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import LANE, THIN, Marks, across, led, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.picture import Picture, Point, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (110.0, 64.0)  # mm of paper for the rectangle
_SQUARE = 3.0  # mm of paper: the mark of a square corner


def draw_diagonals(call: DrawingCall) -> Picture:
    """The picture of a rectangle `width` by `height` mm; the figure of a diagonal is led out to the upper left."""
    wide, high = Fraction(call.figures["width"]), Fraction(call.figures["height"])
    view = View(one_to=one_to(wide, high, _ROOM, least=5))
    corner, other = view.at(0, 0), view.at(wide, high)
    marks: Marks = (
        Stroke(outlines=(view.box(0, 0, wide, high),), closed=True, weight=0.35),
        _square_corners(corner, other),
        view.rule((0, 0), (wide, high), weight=0.25, dash=(3, 1)),
        view.rule((0, high), (wide, 0), weight=0.25, dash=(3, 1)),
    )
    if "width" in call.labels:
        marks += across(corner, view.at(wide, 0), corner[1] + LANE, call.labels["width"])
    if "height" in call.labels:
        marks += upright(view.at(wide, 0), other, other[0] + LANE, call.labels["height"])
    if "diagonal" in call.labels:
        point = view.at(wide / 4, high * 3 / 4)
        marks += led(point, (point[0] - 1.5, other[1] - 2.5), call.labels["diagonal"])
    return framed(marks, call.alt)


def _square_corners(foot: Point, head: Point) -> Stroke:
    """The small squares that mark a right angle, inside each corner."""
    side = min(_SQUARE, (head[0] - foot[0]) / 4, (foot[1] - head[1]) / 4)
    return Stroke(
        outlines=tuple(
            ((x + a * side, y), (x + a * side, y + b * side), (x, y + b * side))
            for x, a in ((foot[0], 1), (head[0], -1))
            for y, b in ((foot[1], -1), (head[1], 1))
        ),
        weight=THIN,
    )
