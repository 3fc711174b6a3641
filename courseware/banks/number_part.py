"""The part that asks a figure, and a row of a table with it: its routes and slips, rounding, and how hard it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from courseware.banks.figures import Figure, half_up
from courseware.banks.formulas import Formula, Value
from courseware.banks.part import Part, Signature, Solved, solve_working
from courseware.banks.wording import Wording


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """Another way to a figure: an accepted route, or a slip. `earns` are the marks it is worth.

    `misconception` is what a slip is counted by, in words shared with other slips; '' where it stands for itself.
    """

    value: Formula
    says: Wording
    earns: int
    misconception: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberPart(Part):
    """A part answered by one figure, or a row of a table. `places` is None where the answer is exact."""

    kind: ClassVar[str] = "number"

    answer: Formula
    unit: str
    places: int | None
    within: Formula | None
    accept: tuple[Route, ...]
    slips: tuple[Route, ...]
    told: bool  # the paper gives the answer before it asks, as a check: the learner shows how it comes
    fixed: bool  # the answer is the same on every paper, and is meant to be

    @property
    def numbers(self) -> tuple[NumberPart, ...]:
        return (self,)

    @property
    def wordings(self) -> tuple[Wording, ...]:
        says = [route.says for route in (*self.accept, *self.slips)]
        return (self.ask, *says, *(line.say for line in self.working))

    @property
    def misconceptions(self) -> Mapping[str, str]:
        return {str(place): slip.misconception for place, slip in enumerate(self.slips, 1) if slip.misconception}

    def solve(self, scope: dict[str, Value], carried: Mapping[str, Value]) -> SolvedNumber:
        solved = solve_number(self, scope)
        scope[self.name] = carried.get(self.name, solved.answer)
        return solved


@dataclass(frozen=True, slots=True)
class SolvedNumber(Solved):
    """A number part for one variant. `exact` is the answer before rounding, `answer` as it is to be written."""

    part: NumberPart
    exact: Figure
    answer: Figure
    within: Figure
    accept: tuple[Figure, ...]
    working: tuple[Value | None, ...]
    slips: tuple[Figure, ...]

    @property
    def numbers(self) -> tuple[SolvedNumber, ...]:
        return (self,)

    @property
    def value(self) -> Value | None:
        return self.answer

    @property
    def accepted(self) -> object:
        return self.answer, self.accept, self.working[-1]

    @property
    def signature(self) -> Signature:
        """Digits before the point; 0, 1 or 2 for whole, half or other parts; whether it was rounded."""
        answer = self.answer
        whole = len(str(int(answer)))
        if self.part.places:
            return ((whole, 2, self.exact != answer),)
        parts = 0 if type(answer) is int else 1 if answer.denominator == 2 else 2
        return ((whole, parts, self.exact != answer),)


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
        solve_working(part.working, scope),
        _figures(part, part.slips, scope),
    )


def rounded(part: NumberPart, value: Figure) -> Figure:
    """A figure as this part asks for it."""
    return value if part.places is None else half_up(value, part.places)


def shown_lines(solved: SolvedNumber) -> tuple[Value | None, ...]:
    """The working's figures as they are shown: the last one, which is the answer, as the part asks for it."""
    *before, last = solved.working
    if last is None or isinstance(last, bool | str):
        return solved.working
    return (*before, rounded(solved.part, last))


def _figures(part: NumberPart, routes: tuple[Route, ...], scope: Mapping[str, Value]) -> tuple[Figure, ...]:
    return tuple([rounded(part, route.value.figure(scope)) for route in routes])
