"""A batch of mortar by gauge boxes of one size: one of cement beside those of sand, and the bag of cement."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, box, figure_under, name
from courseware.drawings.frame import HALF_BRICK, PROJECTING, framed
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.papers.sheets import DrawingCall

_SIDE, _APART = 10.0, 2.0  # mm of paper: a box, and between two
_BOARD = 0.9  # how thick its sides are drawn
_TO_A_ROW = 4
_PLUS = 8.0


def draw_batch(call: DrawingCall) -> Picture:
    """The picture of one box of cement and `sand` boxes of sand; a bag of `bag` kg stands on the left."""
    sand = int(Fraction(call.figures["sand"]))
    rows = -(-sand // _TO_A_ROW)
    foot = rows * (_SIDE + _APART) - _APART
    cement = 21.0
    start = cement + _SIDE + _PLUS
    marks: Marks = (
        *_bag(0.0, foot),
        *gauge_box(cement, foot, PROJECTING),
        name((cement + _SIDE / 2, foot + 4.5), "cement", anchor="middle"),
        Label(at=(cement + _SIDE + _PLUS / 2, foot - _SIDE / 2 + 2), text="+", size=6.0),
    )
    for n in range(sand):
        row, place = divmod(n, _TO_A_ROW)
        marks += gauge_box(start + place * (_SIDE + _APART), foot - row * (_SIDE + _APART), HALF_BRICK)
    wide = min(sand, _TO_A_ROW) * (_SIDE + _APART) - _APART
    marks += (name((start + wide / 2, foot + 4.5), "sand", anchor="middle"),)
    if "bag" in call.labels:
        marks += figure_under((8.0, foot + 1.4), call.labels["bag"])
    if "sand" in call.labels:
        marks += figure_under((start + wide / 2, foot + 6.0), call.labels["sand"])
    return framed(marks, call.alt)


def gauge_box(left: float, foot: float, fill: float) -> Marks:
    """An open box from the front, struck off level."""
    right, head = left + _SIDE, foot - _SIDE
    sides = (
        (left, head),
        (left, foot),
        (right, foot),
        (right, head),
        (right - _BOARD, head),
        (right - _BOARD, foot - _BOARD),
        (left + _BOARD, foot - _BOARD),
        (left + _BOARD, head),
    )
    full = box(left + _BOARD, head + 0.6, right - _BOARD, foot - _BOARD)
    return (
        Stroke(outlines=(full,), closed=True, weight=0.13, fill=fill),
        Stroke(outlines=(sides,), closed=True, weight=0.25, fill=1.0),
    )


def _bag(left: float, foot: float) -> Marks:
    wide, high = 16.0, 11.0
    head, right = foot - high, left + wide
    outline = (
        (left, head + 1),
        (left + 1.5, head),
        (right - 1.5, head),
        (right, head + 1),
        (right - 0.6, foot - high / 2),
        (right, foot - 1),
        (right - 1.5, foot),
        (left + 1.5, foot),
        (left, foot - 1),
        (left + 0.6, foot - high / 2),
    )
    return (
        Stroke(outlines=(outline,), closed=True, weight=0.35, fill=1.0),
        name((left + wide / 2, foot - high / 2 + 1), "cement", anchor="middle"),
    )
