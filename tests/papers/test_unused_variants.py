"""A retake deals variants that its learner has not had, and none to two learners while the space lasts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.banks import Space, prove, read_bank
from courseware.papers.group import Learner
from courseware.papers.unused_variants import CannotDeal, given_texts, had_by, unused_variants

BANK = """\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 5 to 12}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        unit: mm
        marks: 1
        working:
          - {say: "Bricks and joints, one joint fewer", value: bricks * module - joint}
"""


@pytest.fixture(scope="module")
def space() -> Space:
    return prove(read_bank(BANK.encode(), "piers.yaml").exercises[0]).space


def had(space: Space, *indices: int) -> dict[str, frozenset]:
    return {"pier-length": frozenset(frozenset(given_texts(space.variant(index)).items()) for index in indices)}


def test_no_learner_gets_a_variant_again(space) -> None:
    before = [had(space, 0, 1, 2, 3), had(space, 4, 5, 6), had(space)]
    for seed in ("one", "two", "three", "four", "five", "six"):
        first, second, third = unused_variants(space, 3, before, seed)
        assert first in {4, 5, 6, 7}
        assert second in {0, 1, 2, 3, 7}
        assert len({first, second, third}) == 3


def test_the_space_is_dealt_through_before_a_variant_comes_twice(space) -> None:
    dealt = unused_variants(space, 8, [had(space)] * 8, "a seed")
    assert sorted(dealt) == list(range(8))
    assert sorted(unused_variants(space, 9, [had(space)] * 9, "a seed"))[:1] == [0]


def test_what_all_but_one_have_had_goes_to_that_one(space) -> None:
    everything_but_7 = had(space, 0, 1, 2, 3, 4, 5, 6)
    assert unused_variants(space, 2, [everything_but_7, everything_but_7], "a seed") == [7, 7]


def test_a_learner_who_has_had_every_variant_is_told_of(space) -> None:
    with pytest.raises(CannotDeal, match="all of its 8 variants"):
        unused_variants(space, 1, [had(space, *range(8))], "a seed")


def test_a_first_sitting_is_dealt_as_ever(space) -> None:
    assert sorted(unused_variants(space, 8, (), "a seed")) == list(range(8))


def test_what_a_learner_has_had_is_looked_up_by_name_and_reference(dealt) -> None:
    sitting, other = dealt("opening_sizes", 3), dealt("opening_sizes", 3, "another seed")
    first, second, _ = sitting.papers
    found = had_by(first, [sitting, other])
    for issued in (*first.exercises, *other.papers[0].exercises):
        assert frozenset(issued.given.items()) in found[issued.exercise]
    for issued in second.exercises:
        assert frozenset(issued.given.items()) not in had_by(first, [sitting]).get(issued.exercise, frozenset())


def test_of_a_paper_without_a_name_all_that_anyone_has_had_counts(dealt) -> None:
    sitting = dealt("opening_sizes", 3)
    nameless = replace(sitting.papers[0], learner=Learner(name=""))
    found = had_by(nameless, [sitting])
    for paper in sitting.papers:
        for issued in paper.exercises:
            assert frozenset(issued.given.items()) in found[issued.exercise]


def test_a_learner_gets_what_was_dealt_to_none_before_what_another_has(space) -> None:
    """Eight variants to nine learners: the ninth is the first to share one."""
    dealt = unused_variants(space, 9, [had(space)] * 9, "a seed")
    assert sorted(dealt[:8]) == list(range(8))
    assert dealt[8] == dealt[0], "the same order again"
