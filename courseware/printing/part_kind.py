"""What printing asks of a kind of part: room for its answer. Its `room.html` stands below the question."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import inf

from courseware.banks.part_kinds import RoomKinds
from courseware.drawings.picture import Picture
from courseware.papers.sheets import AskedPart
from courseware.printing.page_format import PageFormat

INDENT = 9.0  # mm from a part's left edge to its options
_APART = 1.0  # mm from one option to the next
_UNKNOWN = 30.0  # mm: about what a room takes


def _none(_: AskedPart, __: int, ___: float, ____: PageFormat) -> Mapping[str, Picture]:
    return {}


def whole_width(_: AskedPart, wide: float, page: PageFormat) -> float:
    """Of a room that needs the page's width."""
    return _UNKNOWN if wide >= page.wide else inf


def options_height(part: AskedPart, wide: float, before: float, page: PageFormat) -> float:
    """About how high the options of a part stand, each with so many mm `before` its words."""
    says = [text for _, text in part.options]
    columns = page.columns(says, wide - INDENT, before)
    lines = max(page.text_height(text, (wide - INDENT) / columns - before) for text in says)
    return -(-len(says) // columns) * (lines + _APART)


@dataclass(frozen=True, slots=True, kw_only=True)
class KindInPrint:
    """A kind of part in print.

    `rooms` are the pictures that its `room.html` calls for, by name; they are told for how many marks there is to be
    room, how wide in mm, and the page. `height` is about how high in mm the room stands at a width, infinite where it
    cannot be so narrow: what stands beside what goes by it. `before` is the mm before the words of an option. In
    `room.html` the part is `p`, its exercise `e`, its width `wide`, and `steps` says whether the room has a row for
    each step of the working.
    """

    rooms: Callable[[AskedPart, int, float, PageFormat], Mapping[str, Picture]] = _none
    height: Callable[[AskedPart, float, PageFormat], float] = whole_width
    before: float = 0.0


PRINT_KINDS = RoomKinds("printing", KindInPrint)
