"""Which variants are for papers and which for practice at home: two shares that never have one in common.

The share of a variant hangs on its exercise's name and its own givens alone, by a public hash: not on a seed, on the
rest of the bank or on the day. So a page made last month, or from an older edition of a bank, still keeps apart from a
paper issued today. About one variant in three is for practice.

An exercise with fewer than `ENOUGH` variants has too few to share: all of them are for papers, and it is not practised.
"""

from __future__ import annotations

from array import array

from courseware.banks import Space
from courseware.banks.space import given_at
from courseware.papers.codes import keyed
from courseware.papers.unused_variants import given_texts

ENOUGH = 12
# What a month of ten questions a day may ask of one exercise among all (tests/practice/test_page_month.py).
OF_A_MONTH = 24
_ONE_IN = 3
_PUBLIC = "the share of practice"  # no secret: it says only which share a variant is in


def for_papers(space: Space) -> Space:
    """The variants that sittings deal from: never empty where the space is not."""
    practised = set(for_practice(space).indices)
    return _with(space, [raw for raw in space.indices if raw not in practised])


def for_practice(space: Space) -> Space:
    """The variants that a learner may meet at home; none where the space is too small to share."""
    chosen = [raw for raw in space.indices if _is_practised(space, raw)] if len(space) >= ENOUGH else []
    return _with(space, chosen if len(chosen) < len(space) else [])


def _is_practised(space: Space, raw: int) -> bool:
    figures = [f"{name}={text}" for name, text in sorted(given_texts(given_at(space.exercise, raw)).items())]
    return keyed(_PUBLIC, space.exercise.name, *figures) % _ONE_IN == 0


def _with(space: Space, indices: list[int]) -> Space:
    return Space(exercise=space.exercise, indices=array("L", indices))
