"""A bank as it stands once read: frozen topics, exercises and parts, every formula compiled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.banks.formulas import Formula
from courseware.banks.givens import Given
from courseware.banks.number_part import NumberPart
from courseware.banks.own_picture import OwnPicture
from courseware.banks.part import Part
from courseware.banks.wording import Wording
from courseware.settings.settings import Settings
from courseware.trade import Format

SQUARE = 5  # mm, of the space to draw in
SKETCH_SIZE = (160, 50)  # mm, unless a part says otherwise

BRICK_LINES = ("all", "sizes", "none")  # sizes and joints; sizes alone; no line

_NUMERALS = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii")


def part_label(place: int, row: int | None = None) -> str:
    """The label of a part by its place from 0, as `a`; of a row of its table, as `a(ii)`."""
    return "abcdefgh"[place] + (f"({_NUMERALS[row]})" if row is not None else "")


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
        return tuple(number for part in self.parts for number in part.numbers)

    @property
    def entries(self) -> tuple[tuple[int, Part], ...]:
        """Each part or row with an answer of its own, with the place of its part from 0."""
        return tuple((place, entry) for place, part in enumerate(self.parts) for entry in part.entries)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bank:
    """A topic read from `file`; `text` is the file itself, kept in sitting.json.

    `settings` are those of a sitting, for which its formulas and words are compiled.
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
