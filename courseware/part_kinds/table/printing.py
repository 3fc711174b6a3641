"""Rows with room for the working: all of it words, and so in `room.html`."""

from __future__ import annotations

from math import inf

from courseware.papers.sheets import AskedPart
from courseware.printing.page_format import PageFormat
from courseware.printing.part_kind import KindInPrint

_HEAD, _ROW = 6.0, 9.5  # mm high


def _height(part: AskedPart, wide: float, page: PageFormat) -> float:
    return _HEAD + _ROW * len(part.rows) if wide >= page.wide else inf


KIND = KindInPrint(height=_height)
