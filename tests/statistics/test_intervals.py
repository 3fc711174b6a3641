"""Intervals against the reference libraries, and what holds for every one of them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import f, pearsonr, ttest_1samp
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from courseware.statistics.intervals import Interval, feldt, fisher, mean_of, newcombe, wilson
from courseware.statistics.reliability import cronbach_alpha


@pytest.mark.parametrize("n", [1, 3, 12, 60, 500])
def test_wilson_is_statsmodels(n: int) -> None:
    """Source: wilson-interval; oracle: statsmodels."""
    for right in range(n + 1):
        found = wilson(right / n, n)
        assert (found.low, found.high) == pytest.approx(proportion_confint(right, n, method="wilson"), abs=1e-12)


@given(n=st.integers(1, 300), share=st.floats(0, 1))
def test_wilson_keeps_the_share_inside_and_stays_within_nought_and_one(n: int, share: float) -> None:
    found = wilson(share, n)
    assert 0 <= found.low <= share + 1e-15
    assert share - 1e-15 <= found.high <= 1


@given(n=st.integers(1, 80), first=st.integers(0, 80), second=st.integers(0, 80))
def test_newcombe_is_statsmodels(n: int, first: int, second: int) -> None:
    """Source: newcombe-difference; oracle: statsmodels."""
    first, second = min(first, n), min(second, n)
    found = newcombe(first / n, second / n, n)
    expected = confint_proportions_2indep(first, n, second, n, method="newcomb", compare="diff")
    assert (found.low, found.high) == pytest.approx(expected, abs=1e-9)


@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), min_size=4, max_size=40))
def test_fisher_is_scipys(pairs: list[tuple[int, int]]) -> None:
    """Source: fisher-z; oracle: SciPy."""
    one, other = zip(*pairs, strict=True)
    if len(set(one)) > 1 and len(set(other)) > 1:
        expected = pearsonr(one, other)
        if abs(expected.statistic) < 1 - 1e-9:
            found = fisher(expected.statistic, len(pairs))
            limits = expected.confidence_interval(0.95)
            assert (found.low, found.high) == pytest.approx((limits.low, limits.high), abs=1e-9)


@pytest.mark.parametrize(("alpha", "learners", "parts"), [(0.6963, 10, 10), (0.85, 60, 24), (-0.4, 3, 5), (0.9, 2, 2)])
def test_feldt_is_the_f_quantiles_of_scipy(alpha: float, learners: int, parts: int) -> None:
    """Source: feldt-alpha; oracle: SciPy's F."""
    degrees = (learners - 1, (learners - 1) * (parts - 1))
    low, high = (1 - (1 - alpha) * f.ppf(share, *degrees) for share in (0.975, 0.025))
    found = feldt(alpha, learners, parts)
    assert (found.low, found.high) == pytest.approx((low, high), rel=1e-8)


def test_feldt_holds_the_true_alpha_in_nineteen_classes_of_twenty() -> None:
    """Invented classes of 12 whose true alpha is known; the degrees of freedom the wrong way about would show."""
    rng = np.random.default_rng(20260105)
    parts, held, classes = 8, 0, 400
    true = parts / (parts + 4)  # k·1 / (k·1 + 2²): the learners' own spread 1, that of each part 2
    for _ in range(classes):
        marks = 1000 * (rng.normal(0, 1, (12, 1)) + rng.normal(0, 2, (12, parts)))
        alpha = cronbach_alpha(marks.round().astype(int).tolist(), [1] * parts)
        found = feldt(alpha, 12, parts)
        held += found.low <= true <= found.high
    assert 0.92 <= held / classes <= 0.98


def test_there_is_no_interval_where_there_is_too_little() -> None:
    assert wilson(0.5, 0) is None
    assert newcombe(0.5, 0.5, 0) is None
    assert fisher(0.5, 3) is None
    assert fisher(1.0, 9) is None
    assert feldt(0.5, 1, 5) is None
    assert feldt(0.5, 5, 1) is None


def test_intervals_are_apart_where_they_share_no_figure() -> None:
    low, high = Interval(low=0.1, high=0.4), Interval(low=0.5, high=0.9)
    assert low.apart(high)
    assert high.apart(low)
    assert not low.apart(Interval(low=0.4, high=0.6))


@given(st.lists(st.integers(-20, 20), min_size=2, max_size=60).filter(lambda figures: len(set(figures)) > 1))
def test_the_interval_of_a_mean_is_scipy_s(figures: list[int]) -> None:
    """Source: iupac-confidence-limits; oracle: scipy."""
    found = mean_of([figure / 20 for figure in figures])
    expected = ttest_1samp(np.array(figures) / 20, 0).confidence_interval(0.95)
    assert found.value == pytest.approx(np.mean(figures) / 20, abs=1e-12)
    assert (found.interval.low, found.interval.high) == pytest.approx((expected.low, expected.high), abs=1e-9)


def test_a_mean_has_no_interval_where_there_is_no_spread_and_nothing_is_no_mean() -> None:
    assert mean_of([]) is None
    assert mean_of([0.25]).interval is None
    assert mean_of([0.25, 0.25, 0.25]).interval is None
    assert mean_of([0.25, 0.5]).interval is not None
