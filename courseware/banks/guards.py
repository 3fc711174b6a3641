"""What is asked of an exercise beyond its figures: nothing told, working that leads there, answers carried on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from courseware.banks.exercise import Exercise
from courseware.banks.figures import Figure, exact_text
from courseware.banks.formulas import Formula, Value
from courseware.banks.leaks import AnswerTold, LeakCount, told_too_often
from courseware.banks.leaning import LeaningCount
from courseware.banks.part import Solved
from courseware.banks.shown_working import lands_elsewhere, reworked
from courseware.banks.space import given_at
from courseware.trade import Format

LONGEST_BRICK = 1000  # mm: a block is half of it


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
            or self._said_twice()
            or no_brick(self.exercise.format)
        )

    def _said_twice(self) -> str | None:
        """Two slips of a part with the same words, which cannot explain both figures."""
        for number in self.exercise.numbers:
            said: set[tuple[str, ...]] = set()
            for count, slip in enumerate(number.slips, 1):
                words = tuple(one.text if isinstance(one, Formula) else str(one) for one in slip.says.pieces)
                if words in said:
                    return f"slip {count} of {number.name} has the words of another: say what went wrong in each"
                said.add(words)
        return None

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


def no_brick(format: Format) -> str | None:
    """What no brick has that is laid by hand; None where nothing is wrong. Common practice, no source."""
    if format.length > LONGEST_BRICK:
        return f"a brick of {exact_text(format.length)} mm is not laid by hand: give its sizes in mm"
    if format.width > format.length:
        return f"the brick {format.name} is wider than it is long: give length, width and height as it is laid"
    if max(format.perpend, format.bed) > format.height:
        return f"the brick {format.name} has a joint thicker than it is high: give joints in mm"
    return None
