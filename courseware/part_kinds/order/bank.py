"""An order in a bank: its keys, its steps, and the pairs of them that bind."""

from __future__ import annotations

import graphlib
from dataclasses import dataclass
from typing import ClassVar, cast

from pydantic import Field

from courseware.banks.part import Part
from courseware.banks.part_kinds import KindInBank
from courseware.banks.reading import Path, Reading, Scope
from courseware.banks.shapes import Name, PartShape
from courseware.banks.wording import Wording
from courseware.text_files.did_you_mean import near
from courseware.text_files.shapes import Shape

_FEWEST, _MOST = 3, 10  # steps


class StepShape(Shape):
    """A step to put in order."""

    name: Name = Field(description="a short name: small letters, figures, underscores")
    say: str = Field(description="the words of the step")


class OrderKeys(Shape):
    """What an order has."""

    steps: list[StepShape] = Field([], description="a list of steps: name, say")
    before: list[list[str]] = Field([], description="a list of pairs [earlier, later] of step names")


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPart(Part):
    """Steps to put in order, by name; right when every (earlier, later) pair of `before` is kept."""

    kind: ClassVar[str] = "order"

    steps: tuple[tuple[str, Wording], ...]
    before: tuple[tuple[str, str], ...]

    @property
    def offers(self) -> tuple[str, tuple[Wording, ...]]:
        return "steps", tuple(say for _, say in self.steps)

    @property
    def wordings(self) -> tuple[Wording, ...]:
        return (self.ask, *(say for _, say in self.steps))


def _bind(shape: PartShape, scope: Scope, path: Path) -> OrderPart:
    keys = cast("OrderKeys", shape)
    if keys.steps and not _FEWEST <= len(keys.steps) <= _MOST:
        scope.reading.fault((*path, "steps"), f"{len(keys.steps)} steps", f"expected {_FEWEST} to {_MOST}")
    if any(len(pair) != 2 for pair in keys.before):
        scope.reading.fault((*path, "before"), "an entry is not a pair", "expected pairs [earlier, later]")
    part = OrderPart(
        name=shape.name,
        ask=scope.asked_words((*path, "ask"), shape.ask),
        marks=shape.marks or 1,
        steps=tuple(
            (step.name, scope.told((*path, "steps", index, "say"), step.say)) for index, step in enumerate(keys.steps)
        ),
        before=tuple((pair[0], pair[1]) for pair in keys.before if len(pair) == 2),
    )
    _check(part, scope.reading, path)
    return part


def _check(part: OrderPart, reading: Reading, path: Path) -> None:
    """Faults of an order part: pairs that name no step, that go in a circle, or that bind nothing."""
    names = [name for name, _ in part.steps]
    for pair in part.before if names else ():  # without steps that is the fault
        for name in pair:
            if name not in names:
                reading.fault((*path, "before"), f"`{name}` is not a step", near(name, names, "expected one of"))
    after: dict[str, set[str]] = {}
    for earlier, later in part.before:
        after.setdefault(later, set()).add(earlier)
    if len(set(names)) < len(names):
        reading.fault((*path, "steps"), "a step's name stands twice", "expected each name once")
    try:
        graphlib.TopologicalSorter(after).prepare()
    except graphlib.CycleError:
        reading.fault((*path, "before"), "the pairs go round in a circle", "expected each step before or after another")


KIND = KindInBank(place=3, keys=OrderKeys, needed=("steps", "before", "marks"), bind=_bind)
