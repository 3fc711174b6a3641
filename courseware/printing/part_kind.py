"""What printing asks of a kind of part: room for its answer. Its `room.html` stands below the question."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from courseware.banks.part_kinds import RoomKinds
from courseware.drawings.picture import Picture
from courseware.papers.sheets import AskedPart


def _none(_: AskedPart, __: int, ___: bool) -> Mapping[str, Picture]:
    return {}


@dataclass(frozen=True, slots=True, kw_only=True)
class KindInPrint:
    """A kind of part in print.

    `rooms` are the pictures that its `room.html` calls for, by name; they are told for how many marks there is to be
    room, and whether it has half the page's width, as a part that `may_halve` can have. In `room.html` the part is `p`,
    its exercise `e`, and `steps` says whether the room has a row for each step of the working.
    """

    rooms: Callable[[AskedPart, int, bool], Mapping[str, Picture]] = _none
    may_halve: bool = False


PRINT_KINDS = RoomKinds("printing", KindInPrint)
