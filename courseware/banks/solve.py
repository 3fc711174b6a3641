"""A variant worked out: answers by the trade core, working by the bank's own arithmetic, slips and their figures."""

from __future__ import annotations

from collections.abc import Mapping

from courseware.banks.exercise import Exercise
from courseware.banks.figures import Figure
from courseware.banks.formulas import Value
from courseware.banks.part import Solved

Given = Mapping[str, Figure | str]


def solve(exercise: Exercise, given: Given, carried: Mapping[str, Value] | None = None) -> tuple[Solved, ...]:
    """Every part for one variant, in order. `carried` puts a learner's own answers in place of earlier parts'.

    Raises `FormulaImpossible` or `TradeError` where the variant has no figure.
    """
    scope: dict[str, Value] = dict(given)
    own = carried or {}
    return tuple([part.solve(scope, own) for part in exercise.parts])


def scope_of(given: Given, solved: tuple[Solved, ...]) -> dict[str, Value]:
    """The names a variant brings to wording and drawings: its givens, then its answers."""
    scope: dict[str, Value] = dict(given)
    for part in solved:
        for entry in part.entries:
            if (value := entry.value) is not None:
                scope[entry.part.name] = value
    return scope
