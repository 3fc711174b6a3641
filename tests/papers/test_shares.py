"""Two shares of a space: what is practised at home is never on a paper."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.banks import Space, prove, read_bank
from courseware.papers.deal import Choosing, Heads, choose, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.shares import ENOUGH, for_papers, for_practice
from courseware.papers.unused_variants import given_texts

SHIPPED = Path(__file__).parents[2] / "question_banks" / "opening_sizes.yaml"
BANK = read_bank(SHIPPED.read_bytes(), SHIPPED.name)
NAMES = ("opening-for-a-panel", "which-rule", "setting-out-order")


def of_size(size: int, first: int = 1) -> Space:
    """A space of one given, from `first` on."""
    exercise = BANK.exercises[0]
    one = replace(exercise.givens[0], values=tuple(range(first, first + size)))
    return Space(exercise=replace(exercise, givens=(one,)), indices=range(size))


def variants(space: Space) -> set[frozenset[tuple[str, str]]]:
    return {frozenset(given_texts(space.variant(index)).items()) for index in range(len(space))}


@given(st.integers(0, 400), st.integers(1, 1000))
def test_every_variant_is_in_one_share_and_in_no_more(size: int, first: int) -> None:
    whole = of_size(size, first)
    papers, practice = variants(for_papers(whole)), variants(for_practice(whole))
    assert papers | practice == variants(whole)
    assert not papers & practice


@given(st.integers(1, 400), st.integers(1, 1000))
def test_there_is_always_something_to_issue(size: int, first: int) -> None:
    assert len(for_papers(of_size(size, first))) > 0


def test_about_a_third_is_for_practice() -> None:
    assert 280 < len(for_practice(of_size(1000))) < 390


@given(st.integers(0, ENOUGH - 1))
def test_a_space_too_small_to_share_is_all_for_papers(size: int) -> None:
    assert len(for_practice(of_size(size))) == 0
    assert variants(for_papers(of_size(size))) == variants(of_size(size))


def test_twelve_variants_are_enough_to_share_and_eleven_are_not() -> None:
    firsts = range(1, 601, 12)
    assert all(len(for_practice(of_size(11, first))) == 0 for first in firsts)
    shares = [len(for_practice(of_size(12, first))) for first in firsts]
    assert 180 < sum(shares) < 220  # a third of 600 is 200


def test_a_worksheet_on_a_job_keeps_its_one_variant() -> None:
    assert len(for_papers(of_size(1))) == 1


def test_a_variant_stays_in_its_share_when_its_bank_grows() -> None:
    assert variants(for_practice(of_size(40))) <= variants(for_practice(of_size(90)))


@pytest.mark.parametrize("seed", ["one seed", "another"])
def test_no_sitting_whatever_its_seed_has_a_variant_that_is_practised(seed: str) -> None:
    chosen = choose([BANK], Choosing(picked=NAMES), seed)
    spaces = [prove(exercise).space for _, exercise in chosen]
    heads = Heads(title="W", date="2026-01-05", group=numbered(60), seed=seed, version="0")
    sitting = deal_sitting(heads, [BANK], None, chosen, [for_papers(space) for space in spaces])
    for place, space in enumerate(spaces):
        issued = {frozenset(paper.exercises[place].given.items()) for paper in sitting.papers}
        assert len(issued) > 30
        assert not issued & variants(for_practice(space))
