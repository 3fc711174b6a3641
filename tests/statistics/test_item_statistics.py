"""What marks say of each part: a published set, reference libraries, and what holds for every class."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations
from statistics import fmean

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.statistics.item_statistics import discrimination, facility, item_rest, part_statistics, variance

CLASSES = st.integers(1, 5).flatmap(
    lambda parts: st.lists(st.lists(st.integers(0, 3), min_size=parts, max_size=parts), min_size=1, max_size=9)
)


def test_facilities_of_the_published_set(ten_by_ten) -> None:
    """Source: item-analysis, item p."""
    found = [part.facility.value for part in part_statistics(ten_by_ten, [1] * 10)]
    assert found == [0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6]


def test_variance_of_the_published_set(ten_by_ten) -> None:
    """Source: item-analysis, population variance 5.84."""
    assert variance([sum(row) for row in ten_by_ten]) == Fraction("5.84")


def test_the_published_set_by_hand(ten_by_ten) -> None:
    """Totals 8 7 7 2 2 9 8 9 7 7; 27 % of ten is three: 9, 9 and half of the two 8s; 2, 2 and a quarter of the four 7s.

    Part 1: top 1 + 1 + (1 + 1)/2, bottom 0 + 0 + (1 + 1 + 0 + 1)/4; D = (3 − 3/4) / 3.
    """
    found = part_statistics(ten_by_ten, [1] * 10)[0].discrimination
    assert (found.value, found.n) == (0.75, 3)


@pytest.mark.parametrize(
    ("learners", "each_end"), [(2, 1), (3, 1), (5, 1), (6, 2), (10, 3), (12, 3), (60, 16), (100, 27)]
)
def test_each_end_is_27_percent_of_the_class_and_one_learner_at_least(learners: int, each_end: int) -> None:
    totals = list(range(learners))
    assert discrimination([0] * learners, totals, 1).n == each_end


@given(CLASSES)
def test_item_rest_is_numpys_correlation(marks: list[list[int]]) -> None:
    """Oracle: NumPy's corrcoef."""
    totals = [sum(row) for row in marks]
    for place in range(len(marks[0])):
        part = [row[place] for row in marks]
        rest = [total - mark for total, mark in zip(totals, part, strict=True)]
        found = item_rest(part, totals)
        if len(set(part)) > 1 and len(set(rest)) > 1:
            assert found.value == pytest.approx(np.corrcoef(part, rest)[0, 1], abs=1e-12)
        else:
            assert found is None


@given(st.lists(st.tuples(st.integers(0, 2), st.integers(0, 3)), min_size=2, max_size=6))
def test_discrimination_is_the_mean_over_all_ways_to_break_ties(rows: list[tuple[int, int]]) -> None:
    part, totals = [mark for mark, _ in rows], [total for _, total in rows]
    found = discrimination(part, totals, 2)
    if len(set(totals)) < 2:
        assert found is None
        return
    n = max(1, int(0.27 * len(rows) + 0.5))
    ways = []
    for order in permutations(range(len(rows))):
        if [totals[place] for place in order] == sorted(totals):
            marks = [part[place] for place in order]
            ways.append((sum(marks[-n:]) - sum(marks[:n])) / (n * 2))
    assert found.value == pytest.approx(fmean(ways), abs=1e-12)


@given(CLASSES, st.randoms(use_true_random=False))
def test_the_order_of_learners_does_not_matter(marks: list[list[int]], rng) -> None:
    moved = rng.sample(marks, len(marks))
    assert part_statistics(marks, [3] * len(marks[0])) == part_statistics(moved, [3] * len(marks[0]))


@given(CLASSES)
def test_every_figure_stays_on_its_scale_and_inside_its_interval(marks: list[list[int]]) -> None:
    for part in part_statistics(marks, [3] * len(marks[0])):
        assert 0 <= part.facility.value <= 1
        for found in (part.facility, part.discrimination, part.item_rest):
            if found is not None:
                assert -1 <= found.value <= 1
                if found.interval:
                    assert found.interval.low - 1e-9 <= found.value <= found.interval.high + 1e-9


def test_a_part_that_only_the_best_got_tells_apart_best_and_one_that_only_the_worst_got_the_other_way_about() -> None:
    totals = [1, 2, 3, 4, 5, 6]
    assert discrimination([0, 0, 0, 0, 1, 1], totals, 1).value == 1
    assert discrimination([1, 1, 0, 0, 0, 0], totals, 1).value == -1


def test_figures_that_do_not_exist_are_none() -> None:
    assert facility([], 2) is None
    assert facility([0, 0], 0) is None
    assert discrimination([1], [1], 1) is None
    assert discrimination([1, 1, 1], [5, 5, 5], 1) is None, "nobody is above or below"
    assert item_rest([1, 1, 1], [3, 4, 5]) is None, "everybody has the same mark"
    assert item_rest([0, 1, 2], [4, 5, 6]) is None, "the rest does not vary"
    with pytest.raises(ValueError, match="no figures"):
        variance([])


def test_a_class_without_papers_has_no_figures() -> None:
    assert [part.facility for part in part_statistics([], [1, 2])] == [None, None]
