"""A drawing in a bank: the points that are looked for in it, and the room to draw in."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar, cast

from pydantic import Field

from courseware.banks.exercise import SKETCH_SIZE, SQUARE
from courseware.banks.part import Part
from courseware.banks.part_kinds import KindInBank
from courseware.banks.reading import Path, Scope
from courseware.banks.shapes import PartShape
from courseware.banks.wording import Wording
from courseware.text_files.faults import harmless
from courseware.text_files.shapes import Shape

_SIZE = re.compile(r"(?P<wide>[0-9]{1,4}) by (?P<high>[0-9]{1,4}) (?P<unit>mm|squares)", re.ASCII)
_HIGHEST = 200  # mm
_FEW_MARKS, _SMALL_SKETCH = 2, (160, 40)  # marks, and mm of the usual space for no more than those


class PointKeys(Shape):
    """What a part that is marked by eye has."""

    points: list[str] = Field([], description="a list of what is looked for in the drawing or the words")


class DrawnKeys(PointKeys):
    """What a drawn part has."""

    grid: str | None = Field(None, description="the space to draw in: 120 by 60 mm, or 24 by 12 squares (of 5 mm)")
    adds: str | None = Field(None, description="what the learner draws that the exercise's own drawing does not show")


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPart(Part):
    """A part drawn, or answered in a few words, and marked by eye against its points.

    `lines` are those to write on; 0 where it is drawn, in a squared space of `size`.
    """

    kind: ClassVar[str] = "drawn"
    by_eye: ClassVar[bool] = True

    points: tuple[Wording, ...]
    lines: int
    size: tuple[int, int]  # of the squared space to draw in, width and height in mm
    adds: str  # what the sketch has that the exercise's own drawing does not show

    @property
    def wordings(self) -> tuple[Wording, ...]:
        return (self.ask, *self.points)

    @property
    def leaves_sketch_open(self) -> bool:
        return not self.lines and not self.adds


def _bind(shape: PartShape, scope: Scope, path: Path) -> DrawnPart:
    keys = cast("DrawnKeys", shape)
    usual = SKETCH_SIZE if (shape.marks or len(keys.points)) > _FEW_MARKS else _SMALL_SKETCH
    size = _sketch_size(keys.grid, usual, scope, path)
    return bind_by_eye(shape, scope, path, lines=0, size=size, adds=keys.adds or "")


def bind_by_eye(
    shape: PartShape, scope: Scope, path: Path, *, lines: int, size: tuple[int, int] = SKETCH_SIZE, adds: str = ""
) -> DrawnPart:
    """A part with points, drawn or written."""
    points = cast("PointKeys", shape).points
    marks = shape.marks or len(points) or 1
    if points and marks % len(points):
        wrong = f"{marks} marks for {len(points)} points"
        scope.reading.fault((*path, "marks"), wrong, "expected the same for each point")
    return DrawnPart(
        name=shape.name,
        ask=scope.asked_words((*path, "ask"), shape.ask),
        marks=marks,
        points=tuple(scope.told((*path, "points", index), text) for index, text in enumerate(points)),
        lines=lines,
        size=size,
        adds=adds,
    )


def _sketch_size(written: str | None, usual: tuple[int, int], scope: Scope, path: Path) -> tuple[int, int]:
    """The space to draw in, in mm, whole squares, `usual` where none is written; what no page holds is a fault."""
    if written is None:
        return usual
    asked = _SIZE.fullmatch(" ".join(written.split()))
    each = (SQUARE if asked["unit"] == "squares" else 1) if asked else 0
    wide, high = (int(asked["wide"]) * each, int(asked["high"]) * each) if asked else (0, 0)
    if not (SQUARE <= wide <= SKETCH_SIZE[0] and SQUARE <= high <= _HIGHEST and wide % SQUARE == high % SQUARE == 0):
        expected = f"expected such as 120 by 60 mm or 24 by 12 squares: whole squares of {SQUARE} mm, at most "
        expected += f"{SKETCH_SIZE[0]} by {_HIGHEST} mm"
        scope.reading.fault((*path, "grid"), f"`{harmless(written)}` is not a size to draw in", expected)
        return SKETCH_SIZE
    return wide, high


KIND = KindInBank(place=5, keys=DrawnKeys, needed=("points", "marks"), bind=_bind)
