"""What every part of an exercise has, whatever its kind, as read and as worked out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from courseware.banks.formulas import Formula, Kind, Value
from courseware.banks.wording import Wording

if TYPE_CHECKING:
    from courseware.banks.number_part import NumberPart, SolvedNumber

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


def solve_working(lines: tuple[WorkingLine, ...], scope: Mapping[str, Value]) -> tuple[Value | None, ...]:
    """What each line of a working comes to; None for one of words alone."""
    return tuple([_line_value(line, scope) for line in lines])


def _line_value(line: WorkingLine, scope: Mapping[str, Value]) -> Value | None:
    if line.value is None:
        return None
    return line.value.figure(scope) if line.value.kind == "number" else line.value.value(scope)
