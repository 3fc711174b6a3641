"""Choices with boxes to tick, in columns where they are short: all of it words, and so in `room.html`."""

from __future__ import annotations

from courseware.papers.sheets import AskedPart
from courseware.printing.page_format import PageFormat
from courseware.printing.part_kind import KindInPrint, options_height

BEFORE = 16.0  # mm: box and letter before an option's words


def _height(part: AskedPart, wide: float, page: PageFormat) -> float:
    return options_height(part, wide, BEFORE, page)


KIND = KindInPrint(height=_height, before=BEFORE)
