"""Work as a bar of equal pieces of time, its middle broken out, under the time that each person may give to it.

All bars are to one scale. A total is not drawn whole, so that it is worked out and not measured.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from courseware.drawings.broken import break_line
from courseware.drawings.dimension import LANE, Marks, across, box, figure_under
from courseware.drawings.frame import framed
from courseware.drawings.lines import BREAK, SEEN, SYMBOL
from courseware.drawings.picture import Picture
from courseware.papers.sheets import DrawingCall

LIGHT, DARKER = 0.92, 0.8  # greys of pieces by turns
_LONGEST = 10.0  # mm of paper of a piece of work at most
_FULL = 40.0  # and of a person's share
_HIGH, _APART = 4.6, 1.8  # mm of paper: a bar, and between two
_GAP = 7.0
_BELOW = LANE + 3.0  # mm from the work to the line of its total, whose box may stand below that of the pieces
_ENDS = 3  # pieces shown at either end


def draw_turns(call: DrawingCall) -> Picture:
    """The picture of `pieces` of `each` minutes, and of `people` who may do `share` minutes of it in a day."""
    pieces, people = int(Fraction(call.figures["pieces"])), int(Fraction(call.figures["people"]))
    each, share = float(Fraction(call.figures["each"])), float(Fraction(call.figures["share"]))
    scale = min(_LONGEST / each, _FULL / share if share and people else _LONGEST / each)  # mm of paper to a minute
    marks: Marks = ()
    for n in range(people):
        top = n * (_HIGH + _APART)
        marks += _person(top)
        marks += (SYMBOL.stroke(box(9, top, 9 + share * scale, top + _HIGH), closed=True, fill=1.0),)
    if people and "share" in call.labels:
        marks += across((9, 0), (9 + share * scale, 0), -4, call.labels["share"])
    if people and "people" in call.labels:
        marks += figure_under((9 + share * scale + 13, people * (_HIGH + _APART) / 2 - 3), call.labels["people"])
    top = people * (_HIGH + _APART) + _over(call.labels) * (people > 0)
    return framed((*marks, *_work(call, top, pieces, each * scale)), call.alt)


def _over(labels: Mapping[str, str | None]) -> float:
    """Mm of paper between the shares and the work: more where a box to write in stands there."""
    return 14.0 if labels.get("each", "") is None else 8.0


def _work(call: DrawingCall, top: float, pieces: int, each: float) -> Marks:
    """The bar of the work: a few pieces at either end, the rest in the gap between."""
    ends = min(_ENDS, (pieces - 1) // 2) or 1
    foot, left = top + _HIGH, 9.0
    lefts = [left + n * each for n in range(ends)]
    right = left + 2 * ends * each + _GAP
    lefts += [right - (n + 1) * each for n in range(ends)]
    outlines = tuple(box(x, top, x + each, foot) for x in lefts)
    middle = left + ends * each
    lines = tuple(break_line((middle + _GAP * n / 3, foot + 2), (middle + _GAP * n / 3, top - 2)) for n in (1, 2))
    marks: Marks = (
        SYMBOL.stroke(*outlines[::2], closed=True, fill=LIGHT),
        SYMBOL.stroke(*outlines[1::2], closed=True, fill=DARKER),
        BREAK.stroke(*lines),
    )
    if "each" in call.labels:
        marks += across((left, top), (left + each, top), top - 4, call.labels["each"])
    if "pieces" in call.labels:
        marks += figure_under((max(right, (left + right) / 2 + 10) + 12, top + 0.7), call.labels["pieces"])
    if "total" in call.labels:
        marks += across((left, foot), (right, foot), foot + _BELOW, call.labels["total"])
    return marks


def _person(top: float) -> Marks:
    """A head and shoulders, five millimetres high."""
    head = tuple(
        (3.0 + x, top + y)
        for x, y in ((0, 0.1), (1.0, 0.5), (1.3, 1.3), (0.7, 2.2), (-0.7, 2.2), (-1.3, 1.3), (-1.0, 0.5))
    )
    body = (
        (0.2, top + _HIGH),
        (0.6, top + 3.3),
        (1.8, top + 2.6),
        (4.2, top + 2.6),
        (5.4, top + 3.3),
        (5.8, top + _HIGH),
    )
    return (SEEN.stroke(head, body, closed=True, fill=0.3),)
