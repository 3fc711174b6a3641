"""How a paper's pages are set: the sheet, its margins, the size of type, and what follows from them.

Large type is re-flowed on the same sheet, one thing under another; what is at true size stays so.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from courseware.papers.sheet_format import SheetFormat

_POINT = 25.4 / 72  # mm
_LETTER = 0.46  # width of a letter to its size, of the sheets' face on average
_FONT_SIZE = re.compile(r"(font-size: )(\d*\.?\d+)rem")
_COLUMNS = 4  # at most
_CLOSER_LINES, _CLOSER_ROOM = 1.16, 0.88  # where a paper is set closer to save a side: lines, and rows to write in
_USUAL = 11.0  # points
_ANDIKA_LEAST = 14.0  # points: its letters are meant to be read large and far apart
_SHEETS = {"A4": (210.0, 297.0), "A3": (297.0, 420.0)}  # mm, ISO 216
_GROUNDS = {"cream": "#fdf5e0", "blue": "#e3effa", "green": "#e6f4e6", "pink": "#fbe8ee", "yellow": "#fdf8c8"}
_LARGE = (
    ".paper .safety { break-inside: auto; box-decoration-break: clone } .paper .care { break-inside: avoid } "
    ".paper .safety .half { display: block; width: auto } .paper .safety .half + .half { margin-left: 0 } "
    ".paper .list .working, .paper .list .figure { width: 30% }"
)
_SHEETS_OF_LEARNER = ("paper", "feedback")
_FEEDBACK = (  # re-flowed: one size of type, nothing beside anything, what is asked with its drawing
    ".feedback, .feedback * {{ font-size: 1rem !important; line-height: {line_height} !important }} "
    ".feedback h1 {{ font-size: 1.4rem !important }} .feedback h2, .feedback h3 {{ font-size: 1.1rem !important }} "
    ".feedback .level {{ display: block; margin: 0 }} .feedback h2, .feedback h3 {{ break-inside: avoid }} "
    ".feedback .name {{ padding-top: .5rem; padding-bottom: .5rem }} "
    ".feedback .lines, .feedback .narrow {{ width: 100% }} .feedback .lines .figure {{ width: 30% }} "
    ".feedback .lines .sign {{ width: 2.6rem }} .tag {{ width: 3.6rem }} "
    ".feedback .lost {{ padding-left: 3.6rem; text-indent: -3.6rem }} "
    ".feedback .more {{ padding-left: 0; text-indent: 0 }} .m-topic {{ width: 26% }} .m-marks {{ width: 40% }} "
    ".mark {{ display: inline-block; margin-right: .8rem }} "
    ".wrong {{ break-inside: auto }} .asked-again {{ break-inside: avoid; break-after: avoid }} "
    ".feedback .step-line {{ height: 3rem }} .overturned {{ margin-top: 1.5rem }} "
    "@page feedback {{ margin: {margin}; @bottom-left {{ vertical-align: bottom; margin-top: {below}mm }} "
    "@bottom-right {{ width: {beside}mm }} }}"
)
_PART_A_PAGE_ROOM = 2.0  # what is left of a part's own page is for writing
_PART_A_PAGE = ".paper .part ~ .part { break-before: page }"
_EXERCISE_A_PAGE = ".paper .exercise ~ .exercise { break-before: page }"
_LINE_FOOT = 13.0  # mm at a page's foot that the 100 mm line takes
_LINE_WIDE = 105.0  # mm of a foot's width that it takes
_FOOT_LARGE = 34.0  # mm: a line of large type over the 100 mm line


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFormat:
    """Lengths in mm, type in points. What is drawn for a page, and what is counted on it, goes by this alone."""

    sheet: tuple[float, float] = (210.0, 297.0)
    left: float = 27.0
    right: float = 12.0
    top: float = 9.0
    bottom: float = 15.0
    type_size: float = 11.0
    line_height: float = 1.23  # to the size of type
    gap: float = 5.0  # between two things side by side
    room_type: float = 9.5  # of the words within a room for an answer, where type has its usual size
    face: str = "Sheet"
    ground: str = ""  # a colour, or that of the paper it is printed on
    part_a_page: bool = False
    roomy: bool = False  # an exercise a page
    room: float = 1.0  # how high the rows to write in are, of their usual height

    @property
    def large(self) -> bool:
        """Whether no word is smaller than `type_size`, and nothing stands beside anything else."""
        return self.type_size > _USUAL

    @property
    def scale(self) -> float:
        """How many times as large as usual the type is, and what goes by it."""
        return self.type_size / _USUAL

    @property
    def wide(self) -> float:
        """Between the margins."""
        return self.sheet[0] - self.left - self.right

    @property
    def high(self) -> float:
        """Between the margins."""
        return self.sheet[1] - self.top - self.bottom

    @property
    def half(self) -> float:
        """How wide each of two things side by side is."""
        return (self.wide - self.gap) / 2

    @property
    def line(self) -> float:
        """From one line of text to the next."""
        return self.type_size * self.line_height * _POINT

    @property
    def type_mm(self) -> float:
        """The size of type in mm."""
        return self.type_size * _POINT

    @property
    def label(self) -> float:
        """The size of the words within a room, in mm."""
        return (self.type_size if self.large else self.room_type) * _POINT

    @property
    def re_flowed(self) -> bool:
        """Whether its lines are larger or further apart than usual, so that as much takes more paper."""
        return (self.type_size, self.line_height) != (_USUAL, A4.line_height)

    @property
    def in_one_column(self) -> bool:
        """Whether nothing stands beside anything else."""
        return self.large or self.part_a_page

    @property
    def closer(self) -> PageFormat | None:
        """The same page set closer, for a paper that would take a side more; None where room was asked for."""
        asked_for = self.in_one_column or self.roomy or self.line_height != A4.line_height
        return None if asked_for else replace(self, line_height=_CLOSER_LINES, room=_CLOSER_ROOM)

    @property
    def rules(self) -> str:
        """What a style sheet says of it; other sizes of type are told there in `rem`."""
        size = " ".join(f"{side}mm" for side in self.sheet)
        margin = " ".join(f"{side}mm" for side in (self.top, self.right, self.bottom, self.left))
        face = f"font-family: {self.face}, Signs"
        return "\n".join(
            (
                f"@page {{ size: {size}; margin: {margin} }}",
                f"html {{ font-size: {self.type_size}pt; line-height: {self.line_height}; {face} }}",
                f".half {{ width: {self.half}mm }} .half + .half {{ margin-left: {self.gap}mm }}",
                *(f"@page {name} {{ background: {self.ground} }}" for name in _SHEETS_OF_LEARNER if self.ground),
                *([self._feedback(margin)] if self.re_flowed else ()),
                *([_PART_A_PAGE] if self.part_a_page else ()),
                *([_EXERCISE_A_PAGE] if self.part_a_page or self.roomy else ()),
                *([_LARGE] if self.large else ()),
                *(f"@page {name} {{ @bottom-right {{ {self._foot} }} }}" for name in _SHEETS_OF_LEARNER if self.large),
            )
        )

    def _feedback(self, margin: str) -> str:
        """A feedback sheet re-flowed; its foot stands beside the 100 mm line or, where it is large, over it."""
        below, beside = self.bottom - _LINE_FOOT, self.wide - _LINE_WIDE
        return _FEEDBACK.format(line_height=self.line_height, margin=margin, below=below, beside=beside)

    @property
    def _foot(self) -> str:
        """The foot of a page in large type, over the 100 mm line."""
        words = 'string(code) " · page " counter(page) " of " counter(pages)'
        face = f"{self.type_size}pt/1.2 {self.face}, Signs"
        return f"content: {words}; width: {self.wide}mm; font: {face}; vertical-align: top"

    def styled(self, style: str) -> str:
        """A style sheet for this size of type: in large type no word is smaller, and headings grow half as much."""
        return _FONT_SIZE.sub(_large_size, style) if self.large else style

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


def page_for(asked: SheetFormat) -> PageFormat:
    """The page that a learner's format asks for."""
    andika = asked.face == "andika"
    size = max(float(asked.size), _ANDIKA_LEAST if andika else _USUAL)
    return PageFormat(
        sheet=_SHEETS[asked.sheet],
        type_size=size,
        line_height=1.5 if andika or asked.spaced else A4.line_height,
        bottom=_FOOT_LARGE if size > _USUAL else A4.bottom,
        face="Andika" if andika else A4.face,
        ground=_GROUNDS.get(asked.ground, ""),
        part_a_page=asked.part_a_page,
        roomy=asked.roomy,
        room=_PART_A_PAGE_ROOM if asked.part_a_page else A4.room,
    )


def _large_size(found: re.Match[str]) -> str:
    rem = float(found.group(2))
    return f"{found.group(1)}{max(1.0, (1 + rem) / 2)}rem"
