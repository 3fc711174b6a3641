"""What is asked of an exercise beyond its figures: nothing told, working that leads there, answers carried on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from courseware.banks.exercise import Exercise
from courseware.banks.figures import Figure
from courseware.banks.formulas import Value
from courseware.banks.leaks import AnswerTold, LeakCount, told_too_often
from courseware.banks.leaning import LeaningCount
from courseware.banks.part import Solved
from courseware.banks.shown_working import lands_elsewhere, reworked
from courseware.banks.space import given_at


class Guards:
    """The guards of one exercise, shown its variants one by one and then asked about the space."""

    def __init__(self, exercise: Exercise) -> None:
        self.exercise = exercise
        self._leaks = LeakCount(exercise)
        self._reworked = {rework.part.name: rework for rework in reworked(exercise)}
        self._leaning = LeaningCount(exercise)

    def misleads(self, solved: Sequence[Solved], scope: Mapping[str, Value]) -> str | None:
        """What is wrong where a part's working, as the key shows it, leads to a figure that is not accepted."""
        if self._reworked:
            for number in (number for part in solved for number in part.numbers):
                rework = self._reworked.get(number.part.name)
                if rework and (why := lands_elsewhere(rework, number, scope)):
                    return why
        return None

    def leaks(self, solved: Sequence[Solved], scope: Mapping[str, Value]) -> list[AnswerTold]:
        """The answers of this variant that stand elsewhere in its words."""
        self._leaning.narrow(scope)
        return self._leaks.leaks(solved, scope)

    def fault(
        self, indices: Sequence[int], ranges: Mapping[str, tuple[Figure, Figure]], told: Counter[AnswerTold]
    ) -> str | None:
        """What is wrong with the space of these raw indices and ranges of answers; None where nothing is."""
        constant = frozenset(name for name, (low, high) in ranges.items() if low == high)
        ends = dict.fromkeys((indices[0], indices[len(indices) // 2], indices[-1]))
        return (
            told_too_often(self.exercise, told, len(indices))
            or self._leaning.fault([given_at(self.exercise, raw) for raw in ends], constant)
            or self._never_varies(constant, len(indices))
        )

    def _never_varies(self, constant: frozenset[str], variants: int) -> str | None:
        for number in self.exercise.numbers:
            if number.name in constant and not number.fixed and variants > 1:
                return (
                    f"the answer to {number.name} is the same in every variant, so on every paper: let it go by a "
                    f"given, or say `fixed: true` in {number.name} where it is a figure to know"
                )
            if number.fixed and number.name not in constant:
                return f"{number.name} says `fixed: true`, and its answer is not the same in every variant"
        return None
