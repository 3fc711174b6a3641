"""Alpha, KR-20 and SEM: a published set, and what holds for every class."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.statistics.reliability import cronbach_alpha, kr_20, reliability

CLASSES = st.integers(2, 5).flatmap(
    lambda parts: st.lists(st.lists(st.integers(0, 3), min_size=parts, max_size=parts), min_size=2, max_size=9)
)


def test_the_published_set(ten_by_ten) -> None:
    """Source: item-analysis: KR-20 = alpha = 0.6963, SEM 1.3317, variance 5.84."""
    found = reliability(ten_by_ten, [1] * 10)
    assert round(found.kr20, 4) == round(found.alpha, 4) == 0.6963
    assert round(found.sem, 4) == 1.3317
    assert found.sd**2 == pytest.approx(5.84)
    assert (found.n, found.parts, found.mean) == (10, 10, 6.6)
    assert found.interval.low < found.alpha < found.interval.high
    assert found.sem_interval.low < found.sem < found.sem_interval.high


@given(CLASSES)
def test_alpha_is_that_of_numpys_covariances(marks: list[list[int]]) -> None:
    """Oracle: NumPy; alpha is k/(k − 1) of the share of the total's variance that lies between parts."""
    covariances = np.cov(np.array(marks).T, ddof=0)
    whole, k = covariances.sum(), len(marks[0])
    found = cronbach_alpha(marks, [3] * k)
    if len({sum(row) for row in marks}) == 1:
        assert found is None
    else:
        assert found == pytest.approx(k / (k - 1) * (1 - covariances.trace() / whole), abs=1e-9)


@given(CLASSES)
def test_kr_20_is_alpha_where_every_part_is_right_or_wrong(marks: list[list[int]]) -> None:
    right = [[min(1, mark) for mark in row] for row in marks]
    most = [1] * len(right[0])
    found, alpha = kr_20(right, most), cronbach_alpha(right, most)
    assert (found is None) == (alpha is None)
    assert found == pytest.approx(alpha, abs=1e-12)


@given(CLASSES, st.randoms(use_true_random=False))
def test_the_order_of_learners_and_of_parts_does_not_matter(marks: list[list[int]], rng) -> None:
    most = [3] * len(marks[0])
    order = rng.sample(range(len(most)), len(most))
    moved = [[row[place] for place in order] for row in rng.sample(marks, len(marks))]
    assert reliability(marks, most) == reliability(moved, most)


def test_parts_that_say_the_same_are_perfectly_steady() -> None:
    found = reliability([[0, 0, 0], [1, 1, 1], [2, 2, 2]], [2, 2, 2])
    assert (found.alpha, found.sem) == (1, 0)
    assert found.kr20 is None, "a part with two marks has no KR-20"


def test_figures_that_do_not_exist_are_none() -> None:
    nobody, one, alike, one_part = (
        reliability(marks, most)
        for marks, most in (([], [1, 1]), ([[1, 0]], [1, 1]), ([[1, 0], [0, 1]], [1, 1]), ([[1], [0]], [1]))
    )
    for found in (nobody, one, alike, one_part):
        assert (found.alpha, found.kr20, found.interval, found.sem, found.sem_interval) == (None,) * 5
    assert (nobody.mean, nobody.sd, one.mean, one.sd, alike.sd, one_part.sd) == (None, None, 1, None, 0, 0.5)
