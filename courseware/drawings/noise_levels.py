"""Readings of noise as bars on one scale, with the action values and the limit across them.

80 and 85 dB(A) are the action values, 87 dB(A) the limit: Control of Noise at Work Regulations 2005.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, beside, box, figure_under, name
from courseware.drawings.frame import framed
from courseware.drawings.lines import CUT, HIDDEN, SYMBOL
from courseware.drawings.picture import Picture
from courseware.papers.sheets import DrawingCall

FIRST, SECOND, LIMIT = 80, 85, 87
_FROM, _EACH = 70, 1.7  # dB(A) at the foot; mm of paper to a dB(A)
_WIDE, _LAST = 9.0, 66.0  # mm of paper: a bar, and where the last one ends
_BARS = (("low", 0.0, 0.92), ("middle", 23.0, 0.8), ("high", 57.0, 0.66))  # where each begins, and its grey
_DOWN = {FIRST: 1.0, SECOND: 2.9, LIMIT: -0.6}  # mm of paper from a line to the foot of its figure: clear of the next
_LINES = ((FIRST, HIDDEN), (SECOND, HIDDEN), (LIMIT, CUT))


def draw_noise_levels(call: DrawingCall) -> Picture:
    """The picture of the readings `low`, `middle` and `high`; how far two are over an action value beside them."""
    marks: Marks = ()
    right = _LAST + 3
    for key, left, fill in _BARS:
        reading = Fraction(call.figures[key])
        marks += (SYMBOL.stroke(box(left, _at(reading), left + _WIDE, 0), closed=True, fill=fill),)
        if key in call.labels:
            marks += figure_under((left + _WIDE / 2, 1.5), call.labels[key])
    for level, pen in _LINES:
        y = _at(level)
        marks += (pen.stroke(((-4, y), (right, y))),)
        marks += (name((-5, y + _DOWN[level]), f"{level}", anchor="end"),)
    marks += (SYMBOL.stroke(((-4, 0), (right, 0))),)
    for key, level, (bar, left, _) in (("over_first", FIRST, _BARS[1]), ("over_second", SECOND, _BARS[2])):
        if key in call.labels:
            x = left + _WIDE
            marks += beside((x, _at(level)), (x, _at(Fraction(call.figures[bar]))), x + 3, call.labels[key])
    return framed(marks, call.alt)


def _at(level: Fraction | int) -> float:
    return -float(level - _FROM) * _EACH
