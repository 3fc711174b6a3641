"""A ratio in a bank: the formulas of its two terms, by the trade functions and by the bank's own arithmetic."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from pydantic import Field

from courseware.banks.figures import Figure, write_out
from courseware.banks.formulas import Formula, Value
from courseware.banks.part import Part, Signature, Solved, WritesOut
from courseware.banks.part_kinds import KindInBank
from courseware.banks.reading import Path, Scope
from courseware.banks.shapes import PartShape
from courseware.text_files.shapes import Shape


class RatioKeys(Shape):
    terms: list[str] = Field([], description="two formulas: the terms of the ratio, in lowest terms")
    checks: list[str] = Field([], description="the same two by plain arithmetic")


@dataclass(frozen=True, slots=True, kw_only=True)
class RatioPart(Part):
    kind: ClassVar[str] = "ratio"

    terms: tuple[Formula, ...]
    checks: tuple[Formula, ...]

    def solve(self, scope: dict[str, Value], carried: Mapping[str, Value]) -> SolvedRatio:
        terms, checks = (tuple(one.figure(scope) for one in formulas) for formulas in (self.terms, self.checks))
        return SolvedRatio(self, terms, checks)


@dataclass(frozen=True, slots=True)
class SolvedRatio(Solved):
    part: RatioPart
    terms: tuple[Figure, ...]
    checks: tuple[Figure, ...]

    @property
    def written(self) -> str:
        return ":".join(write_out(term) for term in self.terms)

    @property
    def signature(self) -> Signature:
        return tuple(len(write_out(term)) for term in self.terms)

    def wrong(self, writes_out: WritesOut) -> str | None:
        for term in self.terms:
            writes_out(term, f"a term of {self.part.name}")
        if self.terms != self.checks:
            return f"{self.part.name}: `terms` and `checks` give two ratios"
        return None


def bind(shape: PartShape, scope: Scope, path: Path) -> RatioPart:
    for key in ("terms", "checks"):
        if len(getattr(shape, key)) != 2:
            scope.reading.fault((*path, key), f"{len(getattr(shape, key))} formulas", "expected two")

    def compiled(key: str) -> tuple[Formula, ...]:
        return tuple(scope.formula((*path, key, place), text) for place, text in enumerate(getattr(shape, key)))

    ask = scope.asked_words((*path, "ask"), shape.ask)
    return RatioPart(
        name=shape.name, ask=ask, marks=shape.marks or 1, terms=compiled("terms"), checks=compiled("checks")
    )


KIND = KindInBank(place=99, keys=RatioKeys, needed=("terms", "checks", "marks"), bind=bind)
