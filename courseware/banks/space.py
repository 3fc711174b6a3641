"""The space of an exercise's variants: finite, countable, addressed by index, the same on every machine.

Raw index k counts the givens' values like the wheels of a counter, the last given fastest. The space keeps the raw
indices of the variants that may be issued; variant k of the space is the k-th of those.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from courseware.banks.exercise import Exercise
from courseware.banks.figures import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """The variants of `exercise` that may be issued, by raw index, in rising order."""

    exercise: Exercise
    indices: Sequence[int]

    def __len__(self) -> int:
        return len(self.indices)

    def variant(self, index: int) -> dict[str, Figure | str]:
        """The givens of variant `index`, from 0. Raises `IndexError` outside the space."""
        return given_at(self.exercise, self.indices[index])


def raw_size(exercise: Exercise) -> int:
    """How many variants there are before any is left out."""
    return prod(len(given.values) for given in exercise.givens)


def given_at(exercise: Exercise, raw: int) -> dict[str, Figure | str]:
    """The givens at a raw index. Raises `IndexError` outside the raw space."""
    if not 0 <= raw < raw_size(exercise):
        raise IndexError(raw)
    found: dict[str, Figure | str] = {}
    for given in reversed(exercise.givens):
        raw, wheel = divmod(raw, len(given.values))
        found[given.name] = given.values[wheel]
    return {given.name: found[given.name] for given in exercise.givens}


def walk(exercise: Exercise) -> Iterator[dict[str, Figure | str]]:
    """Every raw variant's givens, in the order of its raw index."""
    names = [given.name for given in exercise.givens]
    for values in product(*(given.values for given in exercise.givens)):
        yield dict(zip(names, values, strict=True))
