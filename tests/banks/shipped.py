"""What the tests share that read the shipped banks as a tutor does: every exercise by its name, variants, slips."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from pathlib import Path

from courseware.banks import Bank, Exercise, Space, read_bank, solve
from courseware.banks.figures import Figure
from courseware.banks.formulas import Value
from courseware.banks.number_part import SolvedNumber
from courseware.banks.solve import scope_of

SITE = {"place": "a place", "street": "a street", "client": "a client"}
Spaces = Callable[..., Space]

READ: dict[str, Bank] = {
    path.stem: read_bank(path.read_bytes(), path.name)
    for path in sorted((Path(__file__).parents[2] / "question_banks").glob("*.yaml"))
    if path.stem != "safety_notes"
}
EXERCISES = {exercise.name: (bank, exercise) for bank in READ.values() for exercise in bank.exercises}


def variants(name: str, space_of: Spaces, most: int = 60, least: int = 1) -> Iterator[dict[str, Value]]:
    """About `most` variants of an exercise, spread over its space, which has `least` or more."""
    space = space_of(*EXERCISES[name])
    assert len(space) >= least, name
    for index in range(0, len(space), max(1, len(space) // most)):
        yield dict(space.variant(index))


def numbers(exercise: Exercise, given: Mapping[str, Value]) -> dict[str, SolvedNumber]:
    return {number.part.name: number for part in solve(exercise, given) for number in part.numbers}


def slip_figures(name: str, given: Mapping[str, int | str], part: str, words: str) -> list[Figure]:
    """The figures of a part's slips whose words begin so, for givens as a bank writes them."""
    _, exercise = EXERCISES[name]
    kinds = {own.name: own.kind for own in exercise.givens}
    exact: dict[str, Value] = {
        key: value if isinstance(value, str) and kinds[key] == "word" else Fraction(value)
        for key, value in given.items()
    }
    number, scope = numbers(exercise, exact)[part], scope_of(exact, solve(exercise, exact))
    return [
        value
        for slip, value in zip(number.part.slips, number.slips, strict=True)
        if slip.says.render(scope, SITE).startswith(words)
    ]
