"""Packs of bricks on pallets, each as high as it holds bricks, and loose bricks in a heap beside them."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, box, figure_under
from courseware.drawings.frame import framed
from courseware.drawings.lines import CUT, SEEN
from courseware.drawings.looks import LOOKS, bricks_of
from courseware.drawings.picture import Label, Picture
from courseware.papers.sheets import DrawingCall

_WIDE, _TALLEST = 18.0, 24.0  # mm of paper of a pack's front; the height of the one with most bricks
_ASKEW = (7.0, 3.5)  # mm of paper: the depth of a pack, to the right and up
_PALLET, _APART = 2.6, 6.0
_LOOSE = (4.3, 1.5, 0.3, 10)  # mm of paper of a loose brick and of its joint; bricks to a row
_SHADE = 0.8  # grey of a side in the shade
_NAMES = {"first": "A", "second": "B", "third": "C"}


def draw_packs(call: DrawingCall) -> Picture:
    """The picture of the packs that hold bricks, named where there are more than one, and of the `loose` ones."""
    counts = {name: int(Fraction(call.figures[name])) for name in _NAMES}
    held = {name: count for name, count in counts.items() if count}
    marks: Marks = ()
    at = 0.0
    for key, count in held.items():
        high = _TALLEST * count / max(held.values())
        marks += _pack(at, high)
        middle = at + _WIDE / 2
        if len(held) > 1:
            marks += (Label(at=(middle, -_PALLET - high / 2 + 1.5), text=_NAMES[key], size=5.0, bold=True),)
        if key in call.labels:
            marks += figure_under((middle, 2.0), call.labels[key])
        at += _WIDE + _ASKEW[0] + _APART
    if loose := int(Fraction(call.figures["loose"])):
        marks += loose_bricks(at, loose)
        middle = at + _LOOSE[3] * (_LOOSE[0] + _LOOSE[2]) / 2
        if "loose" in call.labels:
            marks += figure_under((middle, 2.0), call.labels["loose"])
    return framed(marks, call.alt)


def _pack(left: float, high: float) -> Marks:
    """A strapped pack on its pallet, its front level and its depth askew."""
    right, foot, head = left + _WIDE, -_PALLET, -_PALLET - high
    x, y = _ASKEW
    side = ((right, foot), (right + x, foot - y), (right + x, head - y), (right, head))
    lid = ((left, head), (right, head), (right + x, head - y), (left + x, head - y))
    straps = tuple(
        ((left + part * _WIDE, foot), (left + part * _WIDE, head), (left + part * _WIDE + x, head - y))
        for part in (0.28, 0.72)
    )
    blocks = tuple(box(left + n * (_WIDE - 3) / 2, -_PALLET + 0.8, left + n * (_WIDE - 3) / 2 + 3, 0) for n in range(3))
    deck = (box(left, -_PALLET, right, -_PALLET + 0.8),)
    return (
        SEEN.stroke(box(left, head, right, foot), lid, closed=True, fill=LOOKS["whole"].fill),
        SEEN.stroke(side, closed=True, fill=_SHADE),
        CUT.stroke(*straps),
        SEEN.stroke(*deck, *blocks, closed=True, fill=1.0),
    )


def loose_bricks(left: float, count: int) -> Marks:
    """So many bricks in rows from the ground, each a brick."""
    wide, high, joint, to_a_row = _LOOSE
    outlines = tuple(
        box(x, -(row + 1) * (high + joint), x + wide, -(row + 1) * (high + joint) + high)
        for n in range(count)
        for row, place in [divmod(n, to_a_row)]
        for x in [left + place * (wide + joint)]
    )
    return bricks_of("whole", outlines)
