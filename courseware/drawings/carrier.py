"""A brick carrier from the side, with the bricks that it holds side by side, and what each weighs."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import LANE, Marks, across, box, dot, figure_under, name
from courseware.drawings.frame import framed
from courseware.drawings.lines import GROUND, REFERENCE, SYMBOL
from courseware.drawings.looks import bricks_of
from courseware.drawings.picture import Picture, Point
from courseware.papers.sheets import DrawingCall

_ONE_TO = 10
_HANDLE = 12.0  # mm of paper over the bricks


def draw_carrier(call: DrawingCall) -> Picture:
    """The picture of `bricks` on edge in a carrier; each weighs `each` kg, the empty carrier `empty` kg."""
    count = int(Fraction(call.figures["bricks"]))
    wide, high = float(call.format.height) / _ONE_TO, float(call.format.width) / _ONE_TO
    long = count * wide
    bricks = tuple(box(n * wide, -high, (n + 1) * wide, 0) for n in range(count))
    top = -high - 2.0
    bar = ((-1.2, 0.0), (-1.2, top), (long + 1.2, top), (long + 1.2, 0.0))
    grip = ((long / 2 - 9, top), (long / 2 - 7, top - _HANDLE), (long / 2 + 7, top - _HANDLE), (long / 2 + 9, top))
    marks: Marks = (
        *bricks_of("whole", bricks),
        GROUND.stroke(bar, grip),
        SYMBOL.stroke(box(long / 2 - 7, top - _HANDLE - 1, long / 2 + 7, top - _HANDLE + 1), closed=True, fill=0.0),
    )
    if "bricks" in call.labels:
        marks += across((0, 0), (long, 0), LANE - 3, call.labels["bricks"])
    if "each" in call.labels:
        marks += _led((long - wide / 2, -high * 0.7), (long + 15.0, -high * 0.7), call.labels["each"])
    if "empty" in call.labels:
        marks += _led((long / 2 + 8, top - _HANDLE / 2), (long + 15.0, top - _HANDLE / 2), call.labels["empty"])
    if "load" in call.labels:
        marks += figure_under((long / 2, top - _HANDLE - 10), call.labels["load"])
        marks += (name((long / 2 - 11, top - _HANDLE - 6), "full", anchor="end"),)
    return framed(marks, call.alt, _ONE_TO)


def _led(point: Point, middle: Point, text: str | None) -> Marks:
    """A level leader from a dot to a figure on its right, centred on `middle`."""
    end = (middle[0] - LANE, point[1])
    shift = 1.75 if text is not None else 3.75
    return (
        REFERENCE.stroke((point, end)),
        dot(point),
        *figure_under((middle[0], middle[1] - shift), text),
    )
