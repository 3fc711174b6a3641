"""What marking gives: marks that wait for an assessor, totals, and what a decision is about."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

import pytest

from courseware.marking.marks import PROVISIONAL, Decision, How, Mark, MarkedPaper

MARK = Mark(label="1a", marks=1, of=2, how="unknown", why="Not recognised.")
SURE = sorted(set(get_args(How)) - PROVISIONAL)


@pytest.mark.parametrize("how", sorted(PROVISIONAL))
@pytest.mark.parametrize(("marks", "waits"), [(0, True), (1, True), (2, False)])
def test_a_mark_waits_for_an_assessor_unless_it_is_full(how: How, marks: int, waits: bool) -> None:
    """What was not recognised may hold more in its working; with all its marks there is nothing to add."""
    assert replace(MARK, how=how, marks=marks).provisional is waits


@pytest.mark.parametrize("how", SURE)
def test_what_was_recognised_does_not_wait(how: How) -> None:
    assert not replace(MARK, how=how, marks=0).provisional


def test_a_paper_adds_up_its_parts_and_names_those_that_wait() -> None:
    right = replace(MARK, label="1b", how="right", marks=3, of=3)
    paper = MarkedPaper(code="X", status="", marks=(MARK, right, replace(MARK, label="2", how="blank", marks=0)))
    assert (paper.total, paper.of, paper.provisional) == (4, 7, ("1a",))


def test_an_absent_learner_has_nothing_out_of_nothing() -> None:
    paper = MarkedPaper(code="X", status="absent", marks=())
    assert (paper.total, paper.of, paper.provisional) == (0, 0, ())


def test_a_decision_is_about_a_part_of_an_attempt_and_says_the_same_whatever_the_attempt() -> None:
    first = Decision(code="X", label="1a", marks=2, reason="the method is shown")
    again = replace(first, attempt=2)
    assert first.key == ("X", "1a", 1)
    assert again.key != first.key
    assert again.words == first.words
    assert replace(first, comment="Well set out.").words != first.words
