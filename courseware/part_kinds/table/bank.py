"""A table in a bank: its rows, each a number part of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar, cast

from pydantic import Field

from courseware.banks.formulas import Value
from courseware.banks.number_part import NumberPart, SolvedNumber
from courseware.banks.part import Named, Part, Signature, Solved
from courseware.banks.part_kinds import KindInBank
from courseware.banks.reading import Path, Scope, read_marks
from courseware.banks.shapes import LineShape, Name, PartShape
from courseware.banks.wording import Wording
from courseware.part_kinds.number.bank import NumberKeys, bind_figure
from courseware.text_files.shapes import Shape, Whole

_MOST = 12  # rows


class _RowHead(Shape):
    """What a row has beside what a number part has."""

    name: Name = Field(description="a short name: small letters, figures, underscores")
    say: str = Field(description="what the row asks for")
    marks: Whole = Field(description="marks for the row")


class RowShape(NumberKeys, _RowHead):
    """A row of a table: a number part of its own."""

    answer: str = Field(description="a formula: the answer, by the trade functions")
    working: list[LineShape] = Field(description="a list of lines: say, value, earns", min_length=1)


class TableKeys(Shape):
    """What a table has."""

    rows: list[RowShape] = Field([], description="a list of rows, each with name, say, answer, marks, working")


@dataclass(frozen=True, slots=True, kw_only=True)
class TablePart(Part):
    """A table whose rows are number parts; its marks are theirs."""

    kind: ClassVar[str] = "table"

    rows: tuple[NumberPart, ...]

    @property
    def entries(self) -> tuple[Part, ...]:
        return self.rows

    @property
    def numbers(self) -> tuple[NumberPart, ...]:
        return self.rows

    @property
    def names(self) -> tuple[Named, ...]:
        own: Named = (self.name, None, ("name",))
        return (own, *((row.name, "number", ("rows", index, "name")) for index, row in enumerate(self.rows)))

    @property
    def asks(self) -> tuple[Wording, ...]:
        return (self.ask, *(row.ask for row in self.rows))

    @property
    def wordings(self) -> tuple[Wording, ...]:
        return (self.ask, *(wording for row in self.rows for wording in row.wordings))

    def solve(self, scope: dict[str, Value], carried: Mapping[str, Value]) -> SolvedTable:
        return SolvedTable(self, tuple([row.solve(scope, carried) for row in self.rows]))


@dataclass(frozen=True, slots=True)
class SolvedTable(Solved):
    """A table part for one variant: its rows."""

    part: TablePart
    rows: tuple[SolvedNumber, ...]

    @property
    def entries(self) -> tuple[Solved, ...]:
        return self.rows

    @property
    def numbers(self) -> tuple[SolvedNumber, ...]:
        return self.rows

    @property
    def signature(self) -> Signature:
        return tuple(one for row in self.rows for one in row.signature)


def _bind(shape: PartShape, scope: Scope, path: Path) -> TablePart:
    rows = _rows(shape)
    if shape.marks is not None:
        scope.reading.fault((*path, "marks"), "a table's marks are those of its rows", "expected no `marks` here")
    if len(rows) > _MOST:
        scope.reading.fault((*path, "rows"), f"{len(rows)} rows", f"at most {_MOST}")
    kinds = dict(scope.kinds)
    bound: list[NumberPart] = []
    for index, row in enumerate(rows[:_MOST]):
        here = (*path, "rows", index)
        inside = replace(scope, kinds=dict(kinds))
        ask = inside.asked_words((*here, "say"), row.say)
        marks = read_marks(row.marks, inside, here)
        bound.append(bind_figure(row, row.name, ask, marks, inside, here))
        kinds[row.name] = "number"
    return TablePart(
        name=shape.name,
        ask=scope.asked_words((*path, "ask"), shape.ask),
        marks=sum(row.marks for row in bound),
        rows=tuple(bound),
    )


def _rows(shape: PartShape) -> Sequence[RowShape]:
    return cast("TableKeys", shape).rows


def _row_names(shape: PartShape) -> tuple[str, ...]:
    return tuple(row.name for row in _rows(shape)[:_MOST])


KIND = KindInBank(place=4, keys=TableKeys, needed=("rows",), bind=_bind, rows=_row_names)
