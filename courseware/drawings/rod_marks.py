"""A gauge rod as it lies on the bench, four of its marks with the tape's readings from its foot.

The rod is broken between the marks, and they stand at even distances on paper: which of them is right cannot be seen.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import FIGURE, NAME, Marks, blank, box, name
from courseware.drawings.frame import framed
from courseware.drawings.lines import CUT, GROUND, REFERENCE, SYMBOL
from courseware.drawings.picture import Label, Picture, Point, Stroke
from courseware.papers.sheets import DrawingCall

READINGS = ("first", "second", "third", "fourth")
_APART, _LEAST_APART, _DEEP = 20.0, 13.5, 8.0  # mm of paper: from the foot to the first mark and so on; the rod
_PAST = 8.0  # mm of paper that the rod runs past its last mark
_LINE = 6.0  # mm of paper from the rod to the line that the readings stand along
_ZIG = 1.1  # mm of paper: half the width of a break line's zigzag


def draw_rod_marks(call: DrawingCall) -> Picture:
    """The picture of the rod, its foot to the left: courses over the marks, readings under them."""
    lowest, step = int(Fraction(call.figures["lowest"])), int(Fraction(call.figures["step"]))
    apart = max(_LEAST_APART, call.share * _APART)
    places = [apart * n for n in range(1, len(READINGS) + 1)]
    end = places[-1] + _PAST
    marks: Marks = (
        CUT.stroke(*(((0.0, 0.0), (end, 0.0)), ((0.0, _DEEP), (end, _DEEP)))),
        GROUND.stroke(((0.0, 0.0), (0.0, _DEEP))),
        CUT.stroke(*tuple(((x, 0.0), (x, _DEEP * 0.6)) for x in places)),
        REFERENCE.stroke(*tuple(_break(x - apart / 2 + shift) for x in places for shift in (-0.8, 0.8))),
        REFERENCE.stroke(_break(end)),
        Label(at=(1.2, _DEEP - 1.4), text="foot", size=NAME, anchor="start"),
        name((0.0, -1.6), "course"),
    )
    for n, (reading, x) in enumerate(zip(READINGS, places, strict=True)):
        marks += (name((x, -1.6), str(lowest + n * step), "middle"),)
        if reading in call.labels:
            marks += _reading((x, _DEEP + _LINE), call.labels[reading], apart - 1)
    if call.labels:
        marks += _origin(_DEEP + _LINE)
    return framed(marks, call.alt)


def _break(x: float) -> tuple[Point, ...]:
    """A thin line across the rod with a zigzag."""
    middle = _DEEP / 2
    return (
        (x, -1.5),
        (x, middle - _ZIG),
        (x - _ZIG, middle - _ZIG / 2),
        (x + _ZIG, middle + _ZIG / 2),
        (
            x,
            middle + _ZIG,
        ),
        (x, _DEEP + 1.5),
    )


def _origin(line: float) -> Marks:
    """Where every reading is taken from: the foot of the rod."""
    return (
        REFERENCE.stroke(((0.0, _DEEP + 1.0), (0.0, line + 1.6))),
        name((0.0, line + 5.0), "0", "middle"),
    )


def _reading(at: Point, text: str | None, most: float) -> Marks:
    """A reading from the foot: its line from nought an arrow at the mark, the figure or a box of `most` mm under it."""
    x, y = at
    rule = REFERENCE.stroke(*(((x, _DEEP + 1.0), (x, y + 1.6)), ((0.0, y), (x, y))))
    arrow = Stroke(outlines=(((x, y), (x - 2.4, y - 0.7), (x - 2.4, y + 0.7)),), closed=True, weight=0, fill=0.0)
    if text is not None:
        return rule, arrow, Label(at=(x, y + 5.0), text=text, size=FIGURE, bold=True)
    long, deep = blank()
    wide = min(long, most)
    return (
        rule,
        arrow,
        SYMBOL.stroke(box(x - wide / 2, y + 2.4, x + wide / 2, y + 2.4 + deep), closed=True, fill=1.0),
    )
