"""Whether a part that leans on an earlier answer is carried: another answer there must change what is accepted here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from courseware.banks.exercise import Exercise
from courseware.banks.formulas import Formula, FormulaImpossible, Value
from courseware.banks.number_part import NumberPart
from courseware.banks.part import Part, Solved, WorkingLine
from courseware.banks.solve import Given, solve
from courseware.banks.terms import Term, calls, holds, names_in, term, unrounded, worked_out
from courseware.trade import TradeError

Leaning = tuple[Part, NumberPart, Formula | None]  # the part, the earlier one, the formula that shows its figure


class LeaningCount:
    """The parts of an exercise that lean on an earlier answer, narrowed down variant by variant."""

    def __init__(self, exercise: Exercise) -> None:
        self.exercise = exercise
        self.pairs = tuple(_pairs(exercise))
        self.left: list[Leaning] = [
            (part, earlier, formula)
            for part, earlier in self.pairs
            for line in part.working
            for formula in _formulas(line)
            if formula.kind == "number"
        ]

    def narrow(self, scope: Mapping[str, Value]) -> None:
        """Keeps the lines that show the earlier answer in this variant too."""
        if self.left:
            self.left = [row for row in self.left if row[2] is None or row[2].value(scope) == scope[row[1].name]]

    def fault(self, samples: Sequence[Given], constant: frozenset[str]) -> str | None:
        """What is wrong where a part leans and is not carried, tried on some variants; None where nothing is.

        `constant` are parts whose answer never changes: a line may well show the same figure.
        """
        same = [(part, earlier, formula) for part, earlier, formula in self.left if earlier.name not in constant]
        for part, earlier, formula in [*same, *self._by_its_rule()]:
            if earlier.name in part.apart_from or _is_carried(self.exercise, part, earlier, samples):
                continue
            how = f"shows `{formula.text}`" if formula else f"is worked out with `{earlier.answer.text}`"
            return (
                f"the working of {part.name} {how}, which is the answer to {earlier.name}, yet another answer there "
                f"changes nothing here: write {earlier.name} in the formula, so that it is carried, or say "
                f"`apart_from: [{earlier.name}]`"
            )
        return None

    def _by_its_rule(self) -> Iterator[Leaning]:
        """The parts in whose formulas the whole rule of an earlier part stands again."""
        for part, earlier in self.pairs:
            last = earlier.working[-1].value
            rules = {_rule(formula) for formula in (earlier.answer, last) if formula is not None}
            own = [part.answer, *(line.value for line in part.working)]
            if any(
                holds(term(formula.text), rule)
                for rule in rules
                if _is_a_rule(rule)
                for formula in own
                if formula is not None
            ):
                yield part, earlier, None


def _rule(formula: Formula) -> Term:
    return unrounded(term(formula.text))


def _is_a_rule(whole: Term) -> bool:
    """Whether a term is one that two parts would hardly share by chance: of two names, or of a function of one."""
    return worked_out(whole) and (len(names_in(whole)) > 1 or calls(whole))


def _pairs(exercise: Exercise) -> Iterator[tuple[Part, NumberPart]]:
    """Each part or row, with each figure asked for before it."""
    earlier: list[NumberPart] = []
    for part in exercise.parts:
        for own in part.entries:
            yield from ((own, one) for one in earlier)
            earlier += own.numbers


def _formulas(line: WorkingLine) -> tuple[Formula, ...]:
    return (*([line.value] if line.value else []), *line.say.formulas)


def _is_carried(exercise: Exercise, part: Part, earlier: NumberPart, samples: Sequence[Given]) -> bool:
    """Whether, in one of these variants, another answer to `earlier` changes what `part` accepts."""
    if part.may_stand and _goes_by(exercise, part, earlier.name):
        return True
    for given in samples:
        right = solve(exercise, given)
        own = next(n.answer for solved in right for n in solved.numbers if n.part.name == earlier.name)
        for other in (own + 1, own * 2, Fraction(own) / 2 if own else 7):
            try:
                carried = solve(exercise, given, {earlier.name: other})
            except (FormulaImpossible, TradeError):
                return True  # the marking withholds it, with the reason
            if _accepted(carried, part) != _accepted(right, part):
                return True
    return False


def _goes_by(exercise: Exercise, part: Part, name: str) -> bool:
    """Whether the formulas of a part go by a name, or by a part that goes by it."""
    numbers = {number.name: number for number in exercise.numbers}
    left = list(part.goes_by)
    seen: set[str] = set()
    while left:
        formula = left.pop()
        for used in formula.names - seen:
            seen.add(used)
            if used in numbers:
                left.append(numbers[used].answer)
    return name in seen


def _accepted(solved: Sequence[Solved], part: Part) -> object:
    return next(entry.accepted for one in solved for entry in one.entries if entry.part is part)
