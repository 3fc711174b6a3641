"""A wall that goes up in lifts: the courses of the first are drawn, what stands over it is broken out."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import bats, stopped, wholes
from courseware.drawings.broken import break_line
from courseware.drawings.dimension import LANE, THIN, Marks, beside, upright
from courseware.drawings.frame import View, datum, framed
from courseware.drawings.picture import Picture, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import height

_HIGH, _OVER = 26.0, 15.0  # mm of paper: the first lift at most, and what stands for those over it
_WIDE = 34.0  # mm of paper, or as near as half bricks go
_GAP, _PAST = 1.8, 2.0


def draw_lifts(call: DrawingCall) -> Picture:
    """The picture of a wall of `lifts` lifts of `each` courses; it stands on the brick below, the datum."""
    brick, each = call.format, int(Fraction(call.figures["each"]))
    lift = height(each, brick)
    view = View(one_to=one_to(1, lift, (1, _HIGH), least=20))
    bricks = Fraction(max(2, int(_WIDE * view.one_to * 2 / brick.module)), 2)
    wide = bricks * brick.module - brick.perpend
    laid = [placed for row in range(each) for placed in stopped(bricks, row, brick)]
    left, head = view.at(0, lift)
    right, top = view.at(wide, 0)[0], head - _OVER
    middle = (head + top) / 2
    breaks = tuple(break_line((left - _PAST, y), (right + _PAST, y)) for y in (middle + _GAP / 2, middle - _GAP / 2))
    sides = tuple(
        ((x, start), (x, end))
        for x in (left, right)
        for start, end in ((head, breaks[0][0][1]), (breaks[1][0][1], top))
    )
    marks: Marks = (
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), "half", joint=brick.bed),
        *datum(view.at(0, 0), view.at(wide, 0)),
        Stroke(outlines=(((left, head), (right, head)), ((left, top), (right, top))), weight=0.5),
        Stroke(outlines=sides, weight=0.35),
        Stroke(outlines=breaks, weight=THIN),
    )
    if "lift" in call.labels:
        marks += upright((right, 0), (right, head), right + LANE, call.labels["lift"])
    if "each" in call.labels:
        marks += beside((left, 0), (left, head), left - 5, call.labels["each"])
    if "courses" in call.labels:
        line = right + LANE * (2 if "lift" in call.labels else 1)
        marks += upright((right, 0), (right, top), line, call.labels["courses"])
    return framed(marks, call.alt, view.one_to)
