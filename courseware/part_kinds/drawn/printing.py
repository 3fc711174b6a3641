"""Squares to draw in, or lines to write on."""

from __future__ import annotations

from collections.abc import Mapping

from courseware.drawings.picture import Picture
from courseware.papers.sheets import AskedPart
from courseware.printing.page_elements import ruled, squared
from courseware.printing.part_kind import KindInPrint


def _rooms(part: AskedPart, _: int, __: bool) -> Mapping[str, Picture]:
    return {f"grid-{part.label}": ruled(part.lines) if part.lines else squared(part.size)}


KIND = KindInPrint(rooms=_rooms)
