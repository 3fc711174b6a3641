"""An author's own picture once read: lines and words in mm of paper, nothing of its file left."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]

ROOM = (163.0, 93.0)  # mm of paper a picture may take; a larger one is made smaller
SMALLEST_TYPE = 2.83  # mm, of words as printed: 8 pt


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLine:
    """Line work: runs of points in mm, y downwards; `weight` of the pen in mm, 0 for none; greys from 0, black, to 1.

    `fill` is None where nothing is filled; `dash` are lengths in mm.
    """

    runs: tuple[tuple[Point, ...], ...]
    closed: bool
    weight: float
    grey: float
    fill: float | None
    dash: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnWords:
    """Words at a point, in black: `size` in mm of type, `anchor` start, middle or end, `turn` degrees anticlockwise."""

    at: Point
    text: str
    size: float
    anchor: str
    turn: int
    bold: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPicture:
    """The picture of an SVG file, and what it shows in words."""

    file: str
    says: str
    marks: tuple[OwnLine | OwnWords, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """All that a learner can read of it: the words in it and those that stand for it."""
        return (self.says, *(mark.text for mark in self.marks if isinstance(mark, OwnWords)))


class NotDrawn(ValueError):
    """Something in an SVG that is not drawn: what is wrong and what was expected."""

    def __init__(self, wrong: str, expected: str) -> None:
        super().__init__(wrong)
        self.wrong = wrong
        self.expected = expected
