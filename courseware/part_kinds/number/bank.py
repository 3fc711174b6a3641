"""A figure in a bank: its keys, and its formulas compiled. What is worked out is in `courseware.banks.number_part`."""

from __future__ import annotations

from typing import cast

from pydantic import Field

from courseware.banks.number_part import NumberPart
from courseware.banks.part_kinds import KindInBank
from courseware.banks.reading import Path, Scope, read_earlier, read_lines, read_routes
from courseware.banks.shapes import ApartFrom, FigureShape, LineShape, PartShape, SlipShape
from courseware.banks.wording import Wording
from courseware.text_files.shapes import Shape, Whole, Yes

_MOST_PLACES = 6
_LONGEST_UNIT = 20  # characters


class NumberKeys(Shape):
    """What a number part has, and with it a row of a table."""

    answer: str | None = Field(None, description="a formula: the answer, by the trade functions")
    unit: str | None = Field(None, description="the unit printed beside the answer")
    round: Whole | None = Field(None, description="decimal places asked for, half up (exact unless given)")
    within: str | None = Field(None, description="a formula: the ± band the trade allows")
    accept: list[FigureShape] = Field([], description="a list of other accepted routes: value, says")
    working: list[LineShape] = Field([], description="a list of lines: say, value, earns")
    slips: list[SlipShape] = Field([], description="a list of slips: value, says, misconception, earns")
    told: Yes = Field(
        False,
        description="true when the paper gives the figure first, as a check: the learner shows how it comes",
    )
    fixed: Yes = Field(False, description="true when the answer is meant to be the same on every paper")
    apart_from: ApartFrom


def _bind(shape: PartShape, scope: Scope, path: Path) -> NumberPart:
    ask = scope.asked_words((*path, "ask"), shape.ask)
    return bind_figure(cast("NumberKeys", shape), shape.name, ask, shape.marks or 1, scope, path)


def bind_figure(keys: NumberKeys, name: str, ask: Wording, marks: int, scope: Scope, path: Path) -> NumberPart:
    """The number part, or row of a table, that has these keys."""
    if keys.round is not None and keys.round > _MOST_PLACES:
        scope.reading.fault((*path, "round"), f"{keys.round} decimal places", f"expected 0 to {_MOST_PLACES}")
    if len(keys.unit or "") > _LONGEST_UNIT:
        expected = f"expected at most {_LONGEST_UNIT} characters"
        scope.reading.fault((*path, "unit"), "the unit is too long", expected)
    return NumberPart(
        name=name,
        ask=ask,
        marks=marks,
        answer=scope.formula((*path, "answer"), keys.answer if keys.answer is not None else "0"),
        unit=keys.unit or "",
        places=keys.round,
        within=None if keys.within is None else scope.formula((*path, "within"), keys.within),
        accept=read_routes(keys.accept, scope, (*path, "accept"), marks, otherwise=marks),
        working=read_lines(keys.working, scope, (*path, "working"), marks),
        slips=read_routes(keys.slips, scope, (*path, "slips"), marks, otherwise=0),
        told=keys.told,
        fixed=keys.fixed,
        apart_from=read_earlier(keys.apart_from, scope, (*path, "apart_from")),
    )


KIND = KindInBank(place=1, keys=NumberKeys, needed=("answer", "marks", "working"), bind=_bind)
