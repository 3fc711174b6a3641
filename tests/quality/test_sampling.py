"""Sampling: what a sample always shows, that its seed gives it again, and the chance that it catches an error."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import hypergeom

from courseware.quality.sampling import (
    Candidate,
    chance_of_catching,
    papers_to_be_sure,
    sampling_plan,
    size_of_share,
    weight,
)
from tests.quality.conftest import ASSESSORS, TOPICS, codes, marked


@st.composite
def piles(draw: st.DrawFn) -> list[Candidate]:
    """From 1 to 60 marked papers."""
    one = st.tuples(st.integers(0, 40), st.sampled_from(ASSESSORS), st.sampled_from(TOPICS), *[st.integers(0, 2)] * 2)
    return [
        marked(number, total, assessors=(who,), topics=(topic,), decided=decided, differing=differing)
        for number, (total, who, topic, decided, differing) in enumerate(draw(st.lists(one, min_size=1, max_size=60)))
    ]


# ------------------------------------------------------------------ what a sample shows


@given(piles(), st.integers(1, 70), st.text(max_size=5), st.fractions(0, 1))
def test_every_assessor_every_topic_and_the_spread_of_marks_are_in_the_sample(papers, size, seed, line) -> None:
    plan = sampling_plan(papers, size=size, seed=seed, pass_lines=[line])
    sample = [pick.paper for pick in plan.picks]
    if plan.not_shown:  # told, since there is no room
        assert len(plan.picks) == size
        return
    assert {name for paper in sample for name in paper.assessors} == {n for paper in papers for n in paper.assessors}
    assert {topic for paper in sample for topic in paper.topics} == {
        topic for paper in papers for topic in paper.topics
    }
    shares, seen = [paper.share for paper in papers], [paper.share for paper in sample]
    assert min(seen) == min(shares)
    assert max(seen) == max(shares)
    assert max((s for s in seen if s < line), default=None) == max((s for s in shares if s < line), default=None)
    assert min((s for s in seen if s >= line), default=None) == min((s for s in shares if s >= line), default=None)


@given(piles(), st.integers(1, 70), st.text(max_size=5))
def test_the_sample_is_as_large_as_asked_or_as_there_are_papers(papers, size, seed) -> None:
    plan = sampling_plan(papers, size=size, seed=seed)
    assert len(plan.picks) == min(size, len(papers))
    assert len(set(codes(plan))) == len(plan.picks)


@given(piles(), st.integers(1, 70), st.randoms(use_true_random=False))
def test_the_same_seed_gives_the_same_sample_in_whatever_order_papers_come(papers, size, chance) -> None:
    turned = chance.sample(papers, len(papers))
    assert sampling_plan(papers, size=size, seed="QX") == sampling_plan(turned, size=size, seed="QX")


def test_another_seed_draws_others() -> None:
    papers = [marked(number, number % 41) for number in range(100)]
    one, other = (set(codes(sampling_plan(papers, size=20, seed=seed))) for seed in ("first", "second"))
    assert one != other


@given(piles(), st.integers(1, 70))
def test_papers_looked_at_twice_come_before_any_that_is_merely_drawn(papers, size) -> None:
    plan = sampling_plan(papers, size=size, seed="QX")
    drawn = [pick for pick in plan.picks if pick.reasons == ("drawn by the seed",)]
    outside = [paper for paper in papers if paper.code not in codes(plan)]
    assert not (drawn and any(paper.flagged for paper in outside))
    assert plan.flagged_outside == sum(paper.flagged for paper in outside)
    flags = [pick.paper.flagged for pick in plan.picks]
    assert flags == sorted(flags, reverse=True)


def test_each_paper_says_why_it_is_there() -> None:
    papers = [marked(0, 10), marked(1, 20), marked(2, 24), marked(3, 30, differing=1), marked(4, 40, decided=2)]
    plan = sampling_plan(papers, size=5, seed="QX", pass_lines=[Fraction(3, 5)])
    why = {pick.paper.total: pick.reasons for pick in plan.picks}
    assert "the lowest mark" in why[10]
    assert "nearest below the pass line of 60 %" in why[20]
    assert "second marker differs on 1 part" in why[30]
    assert "assessor's own mark on 2 parts" in why[40]
    assert "the highest mark" in why[40]
    assert "nearest at or above the pass line of 60 %" in why[24]
    assert "marked by R. Holt" in why[24]


def test_no_papers_is_no_sample() -> None:
    with pytest.raises(ValueError, match="no marked papers"):
        sampling_plan([], size=3, seed="QX")


def test_a_paper_cannot_stand_twice() -> None:
    with pytest.raises(ValueError, match="twice"):
        sampling_plan([marked(1, 5), marked(1, 6)], size=1, seed="QX")


@pytest.mark.parametrize(("papers", "share", "size"), [(30, "1/10", 3), (31, "1/10", 4), (4, "1/100", 1), (7, "1", 7)])
def test_a_share_is_rounded_up_to_whole_papers(papers, share, size) -> None:
    assert size_of_share(papers, Fraction(share)) == size


# ------------------------------------------------------------------ the chance of catching an error


@given(st.integers(1, 400), st.data())
def test_the_chance_is_that_of_the_hypergeometric_law(papers, data) -> None:
    """Oracle: scipy.stats.hypergeom (SciPy, BSD), survival function at nought."""
    wrong, looked_at = (data.draw(st.integers(1, papers)) for _ in range(2))
    found = chance_of_catching(papers, wrong, looked_at)
    assert float(found) == pytest.approx(float(hypergeom(papers, wrong, looked_at).sf(0)), abs=1e-9)


@pytest.mark.parametrize(
    ("papers", "wrong", "looked_at", "chance"),
    [  # by counting: C(N−k, n)/C(N, n) of all samples miss
        (10, 1, 3, "3/10"),
        (10, 2, 3, "8/15"),  # misses 56 of 120
        (20, 2, 5, "17/38"),  # misses 8568 of 15504
        (5, 5, 1, "1"),
        (12, 1, 12, "1"),
    ],
)
def test_the_chance_is_exact(papers, wrong, looked_at, chance) -> None:
    assert chance_of_catching(papers, wrong, looked_at) == Fraction(chance)


@given(st.integers(1, 200), st.data())
def test_the_size_to_be_sure_is_the_least_that_is_enough(papers, data) -> None:
    wrong = data.draw(st.integers(1, papers))
    size = papers_to_be_sure(papers, wrong)
    assert chance_of_catching(papers, wrong, size) >= Fraction(95, 100)
    assert size == 1 or chance_of_catching(papers, wrong, size - 1) < Fraction(95, 100)


# ------------------------------------------------------------------ what earlier samples found


def test_papers_of_an_assessor_that_was_not_agreed_with_come_first_more_often() -> None:
    """With one ticket and three of four: the paper with three comes first with a chance of 3/4 (counted over seeds).

    1000 draws: 750 ± 4 standard deviations of √(1000 × 3/4 × 1/4) = 13.7.
    """
    one, other = marked(0, 20), marked(1, 20)
    against = {other.assessors[0]: 2}
    assert (weight(one, against), weight(other, against)) == (1, 3)
    firsts = [
        sampling_plan([one, other], size=2, seed=str(seed), not_agreed=against).picks[0].paper.code == other.code
        for seed in range(1000)
    ]
    assert 695 < sum(firsts) < 805


@pytest.mark.parametrize(("times", "counts"), [(0, 1), (1, 2), (3, 4), (4, 5), (5, 5), (99, 5)])
def test_a_disagreement_counts_once_more_up_to_a_limit(times: int, counts: int) -> None:
    assert weight(marked(0, 20), {marked(0, 20).assessors[0]: times}) == counts


def test_without_disagreements_the_draw_is_as_it_always_was() -> None:
    papers = [marked(number, number) for number in range(20)]
    assert sampling_plan(papers, size=9, seed="s") == sampling_plan(papers, size=9, seed="s", not_agreed={"nobody": 3})


def test_why_a_paper_is_here_tells_of_earlier_disagreements_and_open_actions() -> None:
    one = marked(0, 20, open_action=True)
    others = [marked(number, number) for number in range(1, 30)]
    plan = sampling_plan([*others, one], size=12, seed="s", not_agreed={one.assessors[0]: 2})
    [pick] = [pick for pick in plan.picks if pick.paper == one]
    assert pick.reasons[:2] == (
        "an action of an earlier sample is open",
        f"earlier samples did not agree with {one.assessors[0]} on 2 papers",
    )


@pytest.mark.parametrize("size", [1, 4, 5])
def test_as_many_papers_are_drawn_as_were_asked_for(size: int) -> None:
    """Four is four, though five would show every assessor, topic and end of the marks: the plan says what is not shown."""
    plan = sampling_plan(
        [marked(number, number) for number in range(30)], size=size, seed="s", pass_lines=[Fraction(1, 2)]
    )
    assert len(plan.picks) == size
