"""Squares to draw in, or lines to write on."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf

from courseware.drawings.picture import Picture
from courseware.papers.sheets import AskedPart
from courseware.printing.page_elements import ruled, squared
from courseware.printing.page_format import PageFormat
from courseware.printing.part_kind import KindInPrint

_AROUND = 5.0  # mm


def _room(part: AskedPart, wide: float) -> Picture:
    return ruled(part.lines, wide) if part.lines else squared(part.size)


def _rooms(part: AskedPart, _: int, wide: float, __: PageFormat) -> Mapping[str, Picture]:
    return {f"grid-{part.label}": _room(part, wide)}


def _height(part: AskedPart, wide: float, _: PageFormat) -> float:
    room = _room(part, wide)
    return room.height + _AROUND if room.width <= wide else inf


KIND = KindInPrint(rooms=_rooms, height=_height)
