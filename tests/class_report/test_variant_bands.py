"""Whether low, middle and high answers were equally hard, across sittings."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.class_report.variant_bands import PartBands, variant_bands
from courseware.marking.marks import Mark, MarkedPaper, MarkedSitting
from courseware.papers.group import Learner
from courseware.papers.sitting import IssuedExercise, IssuedPaper, IssuedPart, Sitting
from courseware.settings.settings import DEFAULTS


def sat(answers: Sequence[tuple[str, int]], code: str = "KTRA-WGHM-B", kind: str = "number") -> MarkedSitting:
    """A sitting of one part of two marks: each paper's answer and its marks."""
    papers, marked = [], []
    for place, (answer, marks) in enumerate(answers):
        part = IssuedPart(
            label="1a", name="width", kind=kind, answer=answer, unit="mm", within="", marks=2, slips=()
        )  # fmt: skip
        exercise = IssuedExercise(topic="Walls", exercise="a-wall", given={}, site={}, setting="", parts=(part,))
        papers.append(IssuedPaper(code=f"{code}-{place:03d}", learner=Learner(name=""), exercises=(exercise,)))
        mark = Mark(label="1a", marks=marks, of=2, how="right" if marks == 2 else "unknown", why="")
        marked.append(MarkedPaper(code=f"{code}-{place:03d}", status="", marks=(mark,)))
    sitting = Sitting(
        code=code, title="", date="2026-01-05", group="", seed="", settings=DEFAULTS, version="0", banks=(),
        safety=None, papers=tuple(papers),
    )  # fmt: skip
    return MarkedSitting(sitting, tuple(marked))


def told(bands: PartBands) -> list[tuple[str, str, float, int] | None]:
    return [
        (str(band.least), str(band.most), band.facility.value, band.facility.n) if band.facility else None
        for band in bands.bands
    ]


def test_answers_are_split_in_thirds_by_size_and_not_by_their_letters() -> None:
    (found,) = variant_bands([sat([("90", 2), ("1000", 0), ("910", 1), ("685", 2), ("37/3", 2), ("1135", 0)])])
    assert told(found) == [("37/3", "90", 1.0, 2), ("685", "910", 0.75, 2), ("1000", "1135", 0.0, 2)]
    assert (found.topic, found.exercise, found.part, found.unit, found.n) == ("Walls", "a-wall", "width", "mm", 6)


def test_papers_with_the_same_answer_stay_together() -> None:
    (found,) = variant_bands([sat([("685", 2), ("685", 0), ("685", 2), ("910", 2), ("910", 2), ("910", 0)])])
    assert told(found) == [("685", "685", 2 / 3, 3), None, ("910", "910", 2 / 3, 3)]


def test_one_answer_for_all_is_the_middle() -> None:
    (found,) = variant_bands([sat([("685", 2), ("685", 1)])])
    assert told(found) == [None, ("685", "685", 0.75, 2), None]
    assert not found.apart


def test_sittings_are_taken_together_and_one_given_twice_counts_once() -> None:
    first, second = sat([("1", 2), ("2", 2)]), sat([("3", 0)], "WBSK-RDYN-T")
    (found,) = variant_bands([first, second, first])
    assert told(found) == [("1", "1", 1.0, 1), ("2", "2", 1.0, 1), ("3", "3", 0.0, 1)]


def test_bands_are_apart_where_their_intervals_do_not_meet() -> None:
    far = sat([(str(answer), 2 if answer < 20 else 0) for answer in range(30)])
    near = sat([(str(answer), 2 if answer % 2 else 0) for answer in range(30)])
    assert [found.apart for found in variant_bands([far])] == [True]
    assert [found.apart for found in variant_bands([near])] == [False]


@pytest.mark.parametrize("kind", ["choice", "order", "drawn"])
def test_only_parts_with_a_number_for_an_answer_have_bands(kind: str) -> None:
    assert variant_bands([sat([("A", 2), ("B", 2)], kind=kind)]) == ()


@given(st.lists(st.tuples(st.integers(-50, 50).map(str), st.integers(0, 2)), min_size=1, max_size=40))
def test_every_paper_is_in_one_band_and_bands_do_not_overlap(answers: list[tuple[str, int]]) -> None:
    (found,) = variant_bands([sat(answers)])
    known = [band for band in found.bands if band.facility]
    assert sum(band.facility.n for band in known) == len(answers) == found.n
    for lower, higher in pairwise(known):
        assert lower.most < higher.least
    assert min(band.least for band in known) == min(Fraction(answer) for answer, _ in answers)


@given(st.lists(st.integers(-50, 50), min_size=3, max_size=40, unique=True))
def test_unlike_answers_make_bands_that_differ_by_one_paper_at_most(answers: list[int]) -> None:
    (found,) = variant_bands([sat([(str(answer), 2) for answer in answers])])
    sizes = [band.facility.n for band in found.bands]
    assert max(sizes) - min(sizes) <= 1
