"""Learners who join a sitting: the next variants of the same spaces, and nobody else's paper changed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.papers.compose import read_sources
from courseware.papers.group import Learner
from courseware.papers.joining import with_learners
from courseware.papers.shares import for_papers
from courseware.papers.sitting import Sitting
from courseware.papers.unused_variants import CannotDeal
from courseware.workflows.retaking import banks_of

LATE = (Learner(name="Kofi Mensah", reference="9"), Learner(name="Bea Hart"))  # invented


@pytest.fixture
def sitting(dealt) -> Sitting:
    return dealt("opening_sizes", exercises=3)


@pytest.fixture
def joined(sitting, space_of):
    def join(first: Sitting = sitting, learners=LATE, had=()) -> Sitting:
        _, _, chosen = banks_of(first)
        spaces = [for_papers(space_of(bank, exercise)) for bank, exercise in chosen]
        return with_learners(first, learners, chosen, spaces, had)

    return join


def givens(sitting: Sitting, place: int) -> list[frozenset[tuple[str, str]]]:
    return [frozenset(paper.exercises[place].given.items()) for paper in sitting.papers]


def test_papers_already_out_stay_as_they_are_and_the_new_ones_follow_them(sitting, joined) -> None:
    after = joined()
    assert after.papers[: len(sitting.papers)] == sitting.papers
    assert tuple(paper.learner for paper in after.papers[len(sitting.papers) :]) == LATE
    assert replace(after, papers=sitting.papers) == sitting
    assert read_sources(after).exercises.keys() == read_sources(sitting).exercises.keys()


def test_nobody_shares_a_variant_while_the_space_lasts_and_no_code_comes_twice(joined) -> None:
    after = joined()
    for place in range(len(after.papers[0].exercises)):
        assert len(set(givens(after, place))) == len(after.papers)
    assert len({paper.code for paper in after.papers}) == len(after.papers)


def test_the_same_learners_at_once_or_one_after_another_get_the_variants_that_are_next(joined) -> None:
    at_once, one_by_one = joined(), joined(joined(learners=LATE[:1]), LATE[1:])
    assert [givens(at_once, place) for place in range(3)] == [givens(one_by_one, place) for place in range(3)]


def test_a_learner_gets_no_variant_had_before(joined) -> None:
    first = joined(learners=LATE[:1]).papers[-1]
    had = {e.exercise: frozenset({frozenset(e.given.items())}) for e in first.exercises}
    after = joined(learners=LATE[:1], had=(had,)).papers[-1]
    assert all(now.given != then.given for now, then in zip(after.exercises, first.exercises, strict=True))


def test_the_exercises_are_at_the_sites_of_everybody_elses(sitting, joined) -> None:
    assert [e.site for e in joined().papers[-1].exercises] == [e.site for e in sitting.papers[0].exercises]


def test_a_learner_with_a_paper_and_numbered_papers_are_refused(sitting, joined) -> None:
    with pytest.raises(CannotDeal, match=f"has the paper {sitting.papers[0].code} already"):
        joined(learners=[replace(sitting.papers[0].learner, name=sitting.papers[0].learner.name.upper())])
    with pytest.raises(CannotDeal, match="been named twice"):
        joined(learners=[LATE[0], LATE[0]])
    namesake = replace(sitting.papers[0].learner, reference="another")
    assert joined(learners=[namesake]).papers[-1].learner == namesake
    with pytest.raises(CannotDeal, match="numbered"):
        joined(replace(sitting, papers=tuple(replace(paper, learner=Learner(name="")) for paper in sitting.papers)))
