"""A wall about the eye line: the first course whose top stands above it, and a projecting band some courses higher.

The wall is broken between its foot and the courses about the eye line, so that their number cannot be counted.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import toothed
from courseware.drawings.broken_height import GAP, BrokenHeight, reach
from courseware.drawings.dimension import Marks, lane, upright
from courseware.drawings.frame import framed
from courseware.drawings.level_marks import level
from courseware.drawings.lines import HIDDEN
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import courses_to_reach, height

_HIGH = 46.0  # mm of paper for the wall with its gap
_LEAST = 0.6  # of that, so that the names of the levels stand clear of one another
_WIDE = 20.0  # mm of paper for the wall, or as near as bricks go
_FOOT, _UNDER, _OVER = 2, 2, 1  # courses drawn: at the foot, under the first above the eye line, over the band


def draw_above_the_eye(call: DrawingCall) -> Picture:
    """The picture of the band `more` courses over the first course above an eye line at `eye_height`."""
    brick, eye, more = call.format, Fraction(call.figures["eye_height"]), int(Fraction(call.figures["more"]))
    first = courses_to_reach(eye, brick)
    band = first + more
    low, high = _FOOT * brick.course, (first - 1 - _UNDER) * brick.course
    head = (band + _OVER) * brick.course
    share = max(call.share, _LEAST)
    scale = one_to(1, reach(low, high, head), (1, _HIGH - GAP), least=20, share=share)
    view = BrokenHeight(one_to=scale, low=low, high=high)
    bricks = max(2, int(call.share * _WIDE * view.one_to / brick.module))
    rows = [*range(_FOOT), *range(first - 1 - _UNDER, band + _OVER)]
    laid = {row: toothed(bricks, row, brick) for row in rows}
    plain = tuple(b for row, run in laid.items() if row != band - 1 for b in run)
    right = bricks * brick.module + brick.half - brick.perpend
    end = view.at(right, 0)[0]
    top, over = height(first, brick), height(band, brick)
    marks: Marks = (
        *view.bricks(plain, joint=brick.bed),
        *view.bricks(laid[band - 1], "out", joint=brick.bed),
        *view.break_lines(0, right),
        *level(view.at(0, 0), "datum", 22.0, below=True),
        *level(view.at(0, over), "band", 22.0),
        *level(view.at(0, top), "first above", 22.0),
        view.rule((0, eye), (right, eye), pen=HIDDEN),
        *level(view.at(0, eye), "eye line", 22.0, below=True),
    )
    spans = {"eye_height": (Fraction(0), eye), "first_from_eye": (eye, top), "band_from_eye": (eye, over)}
    line = end
    for dimension, (bottom, head_of) in spans.items():
        if dimension in call.labels:
            line += lane(call.labels)
            ends = (end, view.at(0, bottom)[1]), (end, view.at(0, head_of)[1])
            marks += upright(*ends, line, call.labels[dimension])
    return framed(marks, call.alt, view.one_to, ("whole", "out"))
