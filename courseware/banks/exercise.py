"""A bank as it stands once read: frozen topics, exercises and parts, every formula compiled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.banks.formulas import Formula
from courseware.banks.givens import Given
from courseware.banks.own_picture import OwnPicture
from courseware.banks.wording import Wording
from courseware.settings.settings import Settings
from courseware.trade import Format

SQUARE = 5  # mm, of the space to draw in
SKETCH_SIZE = (160, 55)  # mm, unless a part says otherwise


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingLine:
    """A line of working: words, the figure it comes to, and the mark it earns (method, accuracy or none)."""

    say: Wording
    value: Formula | None
    unit: str | None
    earns: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """Another way to a figure: an accepted route, or a slip. `earns` are the marks it is worth."""

    value: Formula
    says: Wording
    earns: int


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberPart:
    """A part answered by one figure, or a row of a table. `places` is None where the answer is exact."""

    name: str
    ask: Wording
    marks: int
    answer: Formula
    unit: str
    places: int | None
    within: Formula | None
    accept: tuple[Route, ...]
    working: tuple[WorkingLine, ...]
    slips: tuple[Route, ...]
    told: bool  # the paper gives the answer before it asks, as a check: the learner shows how it comes
    fixed: bool  # the answer is the same on every paper, and is meant to be
    apart_from: tuple[str, ...]  # earlier parts it does not lean on, though a line shows the same figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One choice: `value` against the answer where one is right, `right` and `check` where several are."""

    say: Wording
    value: Formula | None
    right: Formula | None
    check: Formula | None
    says: Wording | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoicePart:
    """A part answered by ticking. `answer` is None where several choices are right."""

    name: str
    ask: Wording
    marks: int
    several: bool
    answer: Formula | None
    choices: tuple[Choice, ...]
    working: tuple[WorkingLine, ...]
    apart_from: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPart:
    """Steps to put in order, by name; right when every (earlier, later) pair of `before` is kept."""

    name: str
    ask: Wording
    marks: int
    steps: tuple[tuple[str, Wording], ...]
    before: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TablePart:
    """A table whose rows are number parts."""

    name: str
    ask: Wording
    rows: tuple[NumberPart, ...]

    @property
    def marks(self) -> int:
        return sum(row.marks for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPart:
    """A part drawn, or answered in a few words, and marked by eye against its points.

    `lines` are those to write on; 0 where it is drawn, in a squared space of `size`.
    """

    name: str
    ask: Wording
    marks: int
    points: tuple[Wording, ...]
    lines: int
    size: tuple[int, int]  # of the squared space to draw in, width and height in mm
    adds: str  # what the sketch has that the exercise's own drawing does not show


BRICK_LINES = ("all", "sizes", "none")  # sizes and joints; sizes alone; no line

_NUMERALS = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii")


def part_label(place: int, row: int | None = None) -> str:
    """The label of a part by its place from 0, as `a`; of a row of its table, as `a(ii)`."""
    return "abcdefgh"[place] + (f"({_NUMERALS[row]})" if row is not None else "")


Part = NumberPart | ChoicePart | OrderPart | TablePart | DrawnPart


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingAsked:
    """The drawing of an exercise: dimensions in `shows` are printed, those in `asks` are a part's answer.

    `own` is the picture where it is the author's own; `own.words` are all that a learner can read of it.
    """

    kind: str
    figures: Mapping[str, Formula]
    shows: tuple[str, ...]
    asks: Mapping[str, str]
    own: OwnPicture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """One exercise and where it stands (`file`, `line`)."""

    name: str
    level: int
    givens: tuple[Given, ...]
    where: Formula | None
    settings: tuple[Wording, ...]
    pose: Wording
    drawing: DrawingAsked | None
    format: Format
    brick_line: str  # what the sheet's line of the brick says: one of `BRICK_LINES`
    safety: tuple[str, ...]
    parts: tuple[Part, ...]
    file: str
    line: int

    @property
    def marks(self) -> int:
        return sum(part.marks for part in self.parts)

    @property
    def numbers(self) -> tuple[NumberPart, ...]:
        """The number parts and table rows, in order."""
        rows: list[NumberPart] = []
        for part in self.parts:
            rows += part.rows if isinstance(part, TablePart) else [part] if isinstance(part, NumberPart) else []
        return tuple(rows)

    @property
    def answered(self) -> tuple[tuple[int, NumberPart | ChoicePart], ...]:
        """Each part or row with an answer that could be told, with the place of its part from 0."""
        found: list[tuple[int, NumberPart | ChoicePart]] = []
        for place, part in enumerate(self.parts):
            own = part.rows if isinstance(part, TablePart) else (part,)
            found += [(place, one) for one in own if isinstance(one, NumberPart | ChoicePart)]
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bank:
    """A topic read from `file`; `text` is the file itself, kept in sitting.json.

    `settings` are the centre's, for which its formulas and words are compiled.
    """

    file: str
    sha256: str
    text: str
    topic: str
    aim: str
    safety: tuple[str, ...]
    exercises: tuple[Exercise, ...]
    settings: Settings


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyNotes:
    """A file of safety notes: title, lines and source by name."""

    file: str
    sha256: str
    text: str
    notes: Mapping[str, tuple[str, tuple[str, ...], str]]
