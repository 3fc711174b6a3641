"""A variant worked out: answers by the trade core, working by the bank's own arithmetic, slips and their figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.banks.exercise import (
    ChoicePart,
    DrawnPart,
    Exercise,
    NumberPart,
    OrderPart,
    Part,
    Route,
    TablePart,
    WorkingLine,
)
from courseware.banks.figures import Figure, half_up
from courseware.banks.formulas import Value

Given = Mapping[str, Figure | str]


@dataclass(frozen=True, slots=True)
class SolvedNumber:
    """A number part for one variant. `exact` is the answer before rounding, `answer` as it is to be written."""

    part: NumberPart
    exact: Figure
    answer: Figure
    within: Figure
    accept: tuple[Figure, ...]
    working: tuple[Value | None, ...]
    slips: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class SolvedChoice:
    """A choice part for one variant: which choices are right, by either route."""

    part: ChoicePart
    answer: Value | None
    values: tuple[Value, ...]  # each choice's value, or its truth where several are right
    right: tuple[bool, ...]
    checked: tuple[bool, ...]
    working: tuple[Value | None, ...]


@dataclass(frozen=True, slots=True)
class SolvedTable:
    """A table part for one variant: its rows."""

    part: TablePart
    rows: tuple[SolvedNumber, ...]


@dataclass(frozen=True, slots=True)
class SolvedPlain:
    """A part with nothing to work out: an order or a drawing."""

    part: OrderPart | DrawnPart


Solved = SolvedNumber | SolvedChoice | SolvedTable | SolvedPlain


def solve(exercise: Exercise, given: Given, carried: Mapping[str, Value] | None = None) -> tuple[Solved, ...]:
    """Every part for one variant, in order. `carried` puts a learner's own answers in place of earlier parts'.

    Raises `FormulaImpossible` or `TradeError` where the variant has no figure.
    """
    scope: dict[str, Value] = dict(given)
    return tuple([_solve_part(part, scope, carried or {}) for part in exercise.parts])


def scope_of(given: Given, solved: tuple[Solved, ...]) -> dict[str, Value]:
    """The names a variant brings to wording and drawings: its givens, then its answers."""
    scope: dict[str, Value] = dict(given)
    for part in solved:
        for number in numbers_in(part):
            scope[number.part.name] = number.answer
        if isinstance(part, SolvedChoice) and part.answer is not None:
            scope[part.part.name] = part.answer
    return scope


def numbers_in(solved: Solved) -> tuple[SolvedNumber, ...]:
    """The figures of a part: itself, the rows of a table, or none."""
    if isinstance(solved, SolvedNumber):
        return (solved,)
    return solved.rows if isinstance(solved, SolvedTable) else ()


def rounded(part: NumberPart, value: Figure) -> Figure:
    """A figure as this part asks for it."""
    return value if part.places is None else half_up(value, part.places)


def shown_lines(solved: SolvedNumber) -> tuple[Value | None, ...]:
    """The working's figures as they are shown: the last one, which is the answer, as the part asks for it."""
    *before, last = solved.working
    if last is None or isinstance(last, bool | str):
        return solved.working
    return (*before, rounded(solved.part, last))


def _solve_part(part: Part, scope: dict[str, Value], carried: Mapping[str, Value]) -> Solved:
    if isinstance(part, NumberPart):
        return _solve_number(part, scope, carried)
    if isinstance(part, TablePart):
        return SolvedTable(part, tuple([_solve_number(row, scope, carried) for row in part.rows]))
    if isinstance(part, ChoicePart):
        return _solve_choice(part, scope, carried)
    return SolvedPlain(part)


def solve_number(part: NumberPart, scope: Mapping[str, Value]) -> SolvedNumber:
    """One number part or row, from whatever stands for the givens and the earlier parts in `scope`.

    Raises `FormulaImpossible` or `TradeError` where these give no figure.
    """
    exact = part.answer.figure(scope)
    return SolvedNumber(
        part,
        exact,
        rounded(part, exact),
        part.within.figure(scope) if part.within else 0,
        _figures(part, part.accept, scope),
        _working(part.working, scope),
        _figures(part, part.slips, scope),
    )


def _solve_number(part: NumberPart, scope: dict[str, Value], carried: Mapping[str, Value]) -> SolvedNumber:
    solved = solve_number(part, scope)
    scope[part.name] = carried.get(part.name, solved.answer)
    return solved


def _figures(part: NumberPart, routes: tuple[Route, ...], scope: Mapping[str, Value]) -> tuple[Figure, ...]:
    return tuple([rounded(part, route.value.figure(scope)) for route in routes])


def _working(lines: tuple[WorkingLine, ...], scope: Mapping[str, Value]) -> tuple[Value | None, ...]:
    return tuple([_line_value(line, scope) for line in lines])


def _line_value(line: WorkingLine, scope: Mapping[str, Value]) -> Value | None:
    if line.value is None:
        return None
    return line.value.figure(scope) if line.value.kind == "number" else line.value.value(scope)


def _solve_choice(part: ChoicePart, scope: dict[str, Value], carried: Mapping[str, Value]) -> SolvedChoice:
    working = _working(part.working, scope)
    if part.answer is None:
        values = tuple([choice.right.value(scope) for choice in part.choices if choice.right])
        checked = tuple([bool(choice.check.value(scope)) for choice in part.choices if choice.check])
        return SolvedChoice(part, None, values, tuple([bool(value) for value in values]), checked, working)
    answer = part.answer.value(scope)
    values = tuple([choice.value.value(scope) for choice in part.choices if choice.value])
    right = tuple([value == answer for value in values])
    scope[part.name] = carried.get(part.name, answer)
    return SolvedChoice(part, answer, values, right, right, working)
