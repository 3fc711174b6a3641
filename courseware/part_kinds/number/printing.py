"""Room for the working of a figure, and the figure."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf

from courseware.drawings.picture import Picture
from courseware.papers.sheets import AskedPart
from courseware.printing.page_elements import ROOM_LEAST, working_room
from courseware.printing.page_format import PageFormat
from courseware.printing.part_kind import KindInPrint


def _rooms(part: AskedPart, marks: int, wide: float, page: PageFormat) -> Mapping[str, Picture]:
    return {f"work-{part.label}": working_room(part.unit, marks, wide, page)}


def _height(part: AskedPart, wide: float, page: PageFormat) -> float:
    return working_room(part.unit, part.marks, wide, page).height if wide >= ROOM_LEAST else inf


KIND = KindInPrint(rooms=_rooms, height=_height)
