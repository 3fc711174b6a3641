"""Room for the working of a figure, and the figure."""

from __future__ import annotations

from collections.abc import Mapping

from courseware.drawings.picture import Picture
from courseware.papers.sheets import AskedPart
from courseware.printing.page_elements import working_room
from courseware.printing.part_kind import KindInPrint


def _rooms(part: AskedPart, marks: int, half: bool) -> Mapping[str, Picture]:
    return {f"work-{part.label}": working_room(part.unit, marks, half=half)}


KIND = KindInPrint(rooms=_rooms, may_halve=True)
