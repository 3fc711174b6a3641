"""A corner squared with a tape: a length along either line from the corner, and what the tape reads across."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, across, dot, lane, led, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.lines import CUT, HIDDEN
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (90.0, 42.0)  # mm of paper for the two lengths
_ON = Fraction(1, 10)  # of a length, that its line runs on beyond the mark


def draw_square_corner(call: DrawingCall) -> Picture:
    """The picture of a corner, its lines to the left and up; the marks `along` and `up` mm from it, the tape dashed."""
    along, up = Fraction(call.figures["along"]), Fraction(call.figures["up"])
    view = View(one_to=one_to(along, up, _ROOM))
    corner, on_level, on_plumb = view.at(0, 0), view.at(-along, 0), view.at(0, up)
    marks: Marks = (
        view.rule((-along * (1 + _ON), 0), (0, 0), (0, up * (1 + _ON)), pen=CUT),
        view.rule((-along, 0), (0, up), pen=HIDDEN),
        dot(on_level, 1.4),
        dot(on_plumb, 1.4),
    )
    if "along" in call.labels:
        marks += across(on_level, corner, corner[1] + lane(call.labels), call.labels["along"])
    if "up" in call.labels:
        marks += upright(corner, on_plumb, corner[0] + lane(call.labels), call.labels["up"])
    if "tape" in call.labels:
        point = view.at(-along * 2 / 3, up / 3)
        marks += led(point, (point[0] - 6, point[1] - 8), call.labels["tape"])
    return framed(marks, call.alt, view.one_to)
