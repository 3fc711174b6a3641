"""What every part of an exercise has, whatever its kind, as read and as worked out; and the part that asks a figure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import ClassVar

from courseware.banks.figures import Figure, half_up
from courseware.banks.formulas import Formula, Kind, Value
from courseware.banks.wording import Wording

Named = tuple[str, Kind | None, tuple[str | int, ...]]  # a name, what it stands for, where it is given in the part
Signature = tuple[tuple[int, int, bool] | int, ...]
WritesOut = Callable[[Value, str], None]  # raises where a value has no short exact form; the text says what it is


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingLine:
    """A line of working: words, the figure it comes to, and the mark it earns (method, accuracy or none)."""

    say: Wording
    value: Formula | None
    unit: str | None
    earns: str


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
class Part:
    """A part of an exercise, or a row of its table.

    What is asked of a part is answered here for one with nothing to work out; a kind answers otherwise where it has.
    `kind` names the kind in a sitting.
    """

    kind: ClassVar[str] = ""
    by_eye: ClassVar[bool] = False  # marked by a person against its points
    may_stand: ClassVar[bool] = False  # its answer need not change with every earlier figure that it goes by

    name: str
    ask: Wording
    marks: int
    answer: Formula | None = None
    working: tuple[WorkingLine, ...] = ()
    apart_from: tuple[str, ...] = ()  # earlier parts it does not lean on, though a line shows the same figure

    @property
    def entries(self) -> tuple[Part, ...]:
        """What has an answer, and an entry in the sitting, of its own: the rows of a table, else the part itself."""
        return (self,)

    @property
    def numbers(self) -> tuple[NumberPart, ...]:
        """Those of its entries that are answered by a figure."""
        return ()

    @property
    def names(self) -> tuple[Named, ...]:
        """The names it brings: None for what a later part cannot use."""
        return ((self.name, self.answer.kind if self.answer else None, ("name",)),)

    @property
    def goes_by(self) -> tuple[Formula, ...]:
        """The formulas that decide what is right."""
        return (self.answer,) if self.answer else ()

    @property
    def asks(self) -> tuple[Wording, ...]:
        """The questions that a learner reads."""
        return (self.ask,)

    @property
    def offers(self) -> tuple[str, tuple[Wording, ...]]:
        """What stands below the question to be ticked or put in order, and its name, as "choices"."""
        return "", ()

    @property
    def wordings(self) -> tuple[Wording, ...]:
        """All its words, those of the key too."""
        return (self.ask,)

    @property
    def misconceptions(self) -> Mapping[str, str]:
        """What its slips are counted by, where they say so, by the last step of a slip's key."""
        return {}

    @property
    def leaves_sketch_open(self) -> bool:
        """Whether it asks for a sketch and does not say what a drawing beside it leaves to draw."""
        return False

    def solve(self, scope: dict[str, Value], carried: Mapping[str, Value]) -> Solved:
        """The part for one variant. What it is called goes into `scope`; `carried` has a learner's own in its place.

        Raises `FormulaImpossible` or `TradeError` where the variant has no figure.
        """
        return Solved(self)


@dataclass(frozen=True, slots=True)
class Solved:
    """A part for one variant. This one has nothing to work out, as an order or a drawing."""

    part: Part

    @property
    def entries(self) -> tuple[Solved, ...]:
        """The rows of a table, else the part itself."""
        return (self,)

    @property
    def numbers(self) -> tuple[SolvedNumber, ...]:
        """Those of its entries that are figures."""
        return ()

    @property
    def value(self) -> Value | None:
        """What its name stands for in later parts; None where it cannot."""
        return None

    @property
    def accepted(self) -> object:
        """What is taken as right, to compare one variant with another."""
        return None

    @property
    def signature(self) -> Signature:
        """What must be alike for two variants to be equally hard."""
        return ()

    @property
    def only_right(self) -> int | None:
        """The place, from 0, of the one that is right among those offered; None where it is not answered so."""
        return None

    def wrong(self, writes_out: WritesOut) -> str | None:
        """What the proof finds wrong with this variant, beside its figures; None where nothing is."""
        return None


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


def solve_working(lines: tuple[WorkingLine, ...], scope: Mapping[str, Value]) -> tuple[Value | None, ...]:
    """What each line of a working comes to; None for one of words alone."""
    return tuple([_line_value(line, scope) for line in lines])


def _figures(part: NumberPart, routes: tuple[Route, ...], scope: Mapping[str, Value]) -> tuple[Figure, ...]:
    return tuple([rounded(part, route.value.figure(scope)) for route in routes])


def _line_value(line: WorkingLine, scope: Mapping[str, Value]) -> Value | None:
    if line.value is None:
        return None
    return line.value.figure(scope) if line.value.kind == "number" else line.value.value(scope)
