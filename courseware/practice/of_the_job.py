"""Practice for one job: the variants that come nearest to its own figures, but never those figures themselves.

The job's own figures are on its worksheet, which is issued; so the page has its neighbours.
"""

from __future__ import annotations

from array import array
from collections.abc import Mapping

from courseware.banks import Space
from courseware.banks.space import given_at

FEWEST = 6  # variants: fewer are soon known by heart, so figures of the job are given up one by one


def of_the_job(space: Space, own: Mapping[str, int | str]) -> Space:
    """The variants with most of the job's own figures: with one at least, with all of them never.

    Empty where the exercise has none of the givens that a job sets.
    """
    shared = {raw: _in_common(space, raw, own) for raw in space.indices}
    givens = len(space.exercise.givens)
    for least in range(max((count for count in shared.values() if count < givens), default=0), 0, -1):
        chosen = [raw for raw, count in shared.items() if least <= count < givens]
        if len(chosen) >= FEWEST or least == 1:
            return Space(exercise=space.exercise, indices=array("L", chosen))
    return Space(exercise=space.exercise, indices=array("L"))


def _in_common(space: Space, raw: int, own: Mapping[str, int | str]) -> int:
    return sum(own.get(name) == value for name, value in given_at(space.exercise, raw).items())
