"""How a paper's pages are set: the sheet, its margins, the size of type, and what follows from them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

_POINT = 25.4 / 72  # mm
_LETTER = 0.46  # width of a letter to its size, of the sheets' face on average
_COLUMNS = 4  # at most


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFormat:
    """Lengths in mm, type in points. What is drawn for a page, and what is counted on it, goes by this alone."""

    sheet: tuple[float, float] = (210.0, 297.0)
    left: float = 27.0
    right: float = 12.0
    top: float = 10.0
    bottom: float = 16.0
    type_size: float = 11.0
    line_height: float = 1.26  # to the size of type
    gap: float = 5.0  # between two things side by side
    room_type: float = 9.5  # of the words within a room for an answer

    @property
    def wide(self) -> float:
        """Between the margins."""
        return self.sheet[0] - self.left - self.right

    @property
    def half(self) -> float:
        """How wide each of two things side by side is."""
        return (self.wide - self.gap) / 2

    @property
    def line(self) -> float:
        """From one line of text to the next."""
        return self.type_size * self.line_height * _POINT

    @property
    def label(self) -> float:
        """The size of the words within a room, in mm."""
        return self.room_type * _POINT

    @property
    def rules(self) -> str:
        """What a style sheet says of it; other sizes of type are told there in `rem`."""
        size = " ".join(f"{side}mm" for side in self.sheet)
        margin = " ".join(f"{side}mm" for side in (self.top, self.right, self.bottom, self.left))
        return (
            f"@page {{ size: {size}; margin: {margin} }}\n"
            f"html {{ font-size: {self.type_size}pt; line-height: {self.line_height} }}\n"
            f".half {{ width: {self.half}mm }} .half + .half {{ margin-left: {self.gap}mm }}\n"
        )

    def length(self, text: str) -> float:
        """About how long a text is on one line, in mm."""
        return len(text) * self.type_size * _LETTER * _POINT

    def text_height(self, text: str, wide: float) -> float:
        """About how high a text stands that is set so wide, in mm."""
        return -(-self.length(text) // wide) * self.line

    def columns(self, texts: Sequence[str], wide: float, before: float) -> int:
        """In how many columns texts stand unbroken, each with so many mm `before` it; no more than their rows need."""
        longest = max(map(self.length, texts), default=0.0) + before
        most = max(1, min(_COLUMNS, len(texts), int(wide / longest)))
        return -(-len(texts) // -(-len(texts) // most)) if texts else 1


A4 = PageFormat()
