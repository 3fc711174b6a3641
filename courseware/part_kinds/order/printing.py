"""Steps in columns where they are short, with a box for each letter of the order: in `room.html`."""

from __future__ import annotations

from math import inf

from courseware.papers.sheets import AskedPart
from courseware.printing.page_format import PageFormat
from courseware.printing.part_kind import KindInPrint, options_height

BEFORE = 7.0  # mm: the letter before a step
_BOX, _WORD, _BOXES_HIGH = 10.3, 14.0, 10.0  # mm: a box with what is before it, `Order`, and how high they stand


def _height(part: AskedPart, wide: float, page: PageFormat) -> float:
    if wide < _WORD + _BOX * len(part.options):
        return inf
    return options_height(part, wide, BEFORE, page) + _BOXES_HIGH


KIND = KindInPrint(height=_height, before=BEFORE)
