"""Sampling: what a sample always shows, that its seed gives it again, and the chance that it catches an error."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from io import BytesIO

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import hypergeom

from courseware.papers.codes import code
from courseware.quality.sampling import (
    Candidate,
    SamplingPlan,
    chance_of_catching,
    papers_to_be_sure,
    sampling_plan,
    size_of_share,
)
from courseware.quality.sampling_sheet import chance_line, sampling_sheet, sampling_workbook

ASSESSORS = ("J. Marsh", "P. Dunn", "R. Holt")  # invented
TOPICS = ("Opening sizes", "Course gauge", "Squaring and datums")


def marked(number: int, total: int, **more: object) -> Candidate:
    """A marked paper of 40 marks."""
    told = {"assessors": (ASSESSORS[number % 3],), "topics": (TOPICS[number % 2],), "decided": 0, "differing": 0} | more
    return Candidate(code=code("papers", str(number)), sitting="Setting out", total=total, of=40, **told)


@st.composite
def piles(draw: st.DrawFn) -> list[Candidate]:
    """From 1 to 60 marked papers."""
    one = st.tuples(st.integers(0, 40), st.sampled_from(ASSESSORS), st.sampled_from(TOPICS), *[st.integers(0, 2)] * 2)
    return [
        marked(number, total, assessors=(who,), topics=(topic,), decided=decided, differing=differing)
        for number, (total, who, topic, decided, differing) in enumerate(draw(st.lists(one, min_size=1, max_size=60)))
    ]


def codes(plan: SamplingPlan) -> list[str]:
    return [pick.paper.code for pick in plan.picks]


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


def test_chances_are_told_for_one_paper_and_for_5_and_10_percent() -> None:
    plan = sampling_plan([marked(number, number % 41) for number in range(60)], size=12, seed="QX")
    assert [chance.wrong for chance in plan.chances] == [1, 3, 6]
    assert chance_line(plan, plan.chances[0]) == (
        "If 1 of the 60 papers (2 %) carried an error, this sample would hold it about 2 times in 10 (20.0 %); "
        "to be 95 % sure, look at 57 papers."
    )
    everything = sampling_plan([marked(1, 4), marked(2, 5)], size=2, seed="QX")
    assert chance_line(everything, everything.chances[0]).endswith("would hold it for certain.")


# ------------------------------------------------------------------ the sheet and the workbook


def _plan(size: int = 12) -> SamplingPlan:
    return sampling_plan([marked(number, number % 41) for number in range(60)], size=size, seed="QXRT")


def test_the_sheet_prints_the_seed_every_paper_and_its_reasons() -> None:
    plan = _plan()
    sheet = sampling_sheet(plan, "2026-11-25", {})
    text = " ".join(line for block in sheet.blocks for line in block.text)
    assert "the seed QXRT" in text
    table = sheet.blocks[-1].table
    assert table is not None
    assert [row[0] for row in table.rows] == codes(plan)
    assert [row[4] for row in table.rows] == ["; ".join(pick.reasons) for pick in plan.picks]


def test_a_sample_larger_than_asked_says_so() -> None:
    text = " ".join(line for block in sampling_sheet(_plan(1), "2026-11-25", {}).blocks for line in block.text)
    assert "1 had been asked for" in text


def test_names_stand_on_it_only_where_they_are_given() -> None:
    plan = _plan()
    named = {plan.picks[0].paper.code: "=Amara Okafor"}  # invented
    book = openpyxl.load_workbook(BytesIO(sampling_workbook(plan, "2026-11-25", named)))
    cell = book["Sample"]["B2"]
    assert (cell.value, cell.data_type, cell.quotePrefix) == ("=Amara Okafor", "s", True)
    plain = openpyxl.load_workbook(BytesIO(sampling_workbook(plan, "2026-11-25", {})))
    assert [cell.value for cell in plain["Sample"][1]][:2] == ["paper", "sitting"]
    assert isinstance(plain["Sample"]["D2"].value, int)


def test_what_a_small_sample_has_no_room_for_is_told_and_no_paper_more_is_drawn() -> None:
    papers = [replace(marked(number, number * 10), topics=(f"Topic {number}",)) for number in range(4)]
    for size in (3, 4, 5):
        plan = sampling_plan(papers, size=size, seed="QX")
        assert len(plan.picks) == min(size, 4)
        assert bool(plan.not_shown) is (size < 4)
        said = " ".join(sampling_sheet(plan, "2026-01-05", {}).blocks[0].text)
        assert ("leaves no room to show" in said) is (size < 4)


@pytest.mark.parametrize(("open_papers", "told"), [(0, False), (1, True), (4, True)])
def test_provisional_marks_among_the_papers_are_told(open_papers: int, told: bool) -> None:
    papers = [replace(marked(n, n * 10), provisional=int(n < open_papers)) for n in range(4)]
    said = " ".join(sampling_sheet(sampling_plan(papers, size=4, seed="QX"), "2026-01-05", {}).blocks[0].text)
    assert (f"{open_papers} of the 4" in said) is told
