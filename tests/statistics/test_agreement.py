"""Two markers: published tables, reference libraries, and what holds for every pair of markers."""

from __future__ import annotations

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score
from statsmodels.stats.inter_rater import cohens_kappa

from courseware.statistics.agreement import agreement, kappa, linear, quadratic

MARKS = st.integers(0, 4)
PAIRS = st.lists(st.tuples(MARKS, MARKS), min_size=1, max_size=40)
LABELS = list(range(5))


def markers(table: list[list[int]]) -> tuple[list[int], list[int]]:
    """The marks of two markers, of whom the first gave `row` and the second `column` so many times."""
    pairs = [(row, column) for row, line in enumerate(table) for column, n in enumerate(line) for _ in range(n)]
    return [a for a, _ in pairs], [b for _, b in pairs]


@pytest.mark.parametrize(("table", "value"), [
    ([[20, 5], [10, 15]], 0.400),
    ([[45, 15], [25, 15]], 0.1304),
    ([[25, 35], [5, 35]], 0.2593),
])  # fmt: skip
def test_published_tables(table: list[list[int]], value: float) -> None:
    """Source: cohen-kappa."""
    assert round(kappa(*markers(table)).value, 4) == value


@pytest.mark.parametrize(
    ("name", "field"), [(None, "kappa"), ("linear", "kappa_linear"), ("quadratic", "kappa_quadratic")]
)
@given(pairs=PAIRS)
def test_kappas_are_scikit_learns(name: str | None, field: str, pairs: list[tuple[int, int]]) -> None:
    """Oracle: scikit-learn, which gives nan where kappa is undefined."""
    first, second = [a for a, _ in pairs], [b for _, b in pairs]
    found = getattr(agreement(first, second), field)
    if len({*first, *second}) == 1:
        assert found is None
    else:
        assert found.value == pytest.approx(cohen_kappa_score(first, second, labels=LABELS, weights=name), abs=1e-12)


@given(pairs=PAIRS)
def test_intervals_of_kappa_are_those_of_statsmodels(pairs: list[tuple[int, int]]) -> None:
    """Source: kappa-standard-error; oracle: statsmodels."""
    first, second = [a for a, _ in pairs], [b for _, b in pairs]
    table = np.zeros((5, 5))
    np.add.at(table, (first, second), 1)
    for weight, name in ((linear, "linear"), (quadratic, "quadratic")):
        found = kappa(first, second, weight)
        if found is not None and found.interval is not None:
            with warnings.catch_warnings(action="ignore"):  # statsmodels divides by nought under no agreement at all
                expected = cohens_kappa(table, wt=name)
            assert found.value - found.interval.low == pytest.approx(1.959963984540054 * expected.std_kappa, abs=1e-6)
    plain = kappa(first, second)
    if plain is not None and plain.interval is not None:
        with warnings.catch_warnings(action="ignore"):
            expected = cohens_kappa(table)
        assert plain.value - plain.interval.low == pytest.approx(1.959963984540054 * expected.std_kappa, abs=1e-6)


def test_shares_and_mean_difference_by_hand() -> None:
    """Alike in two of five, within one in four, and the second marker 0, 1, 0, −1, 3 above: 3/5 on average."""
    found = agreement([2, 1, 0, 3, 0], [2, 2, 0, 2, 3])
    assert (found.n, found.exact.value, found.within_one.value, found.mean_difference) == (5, 0.4, 0.8, 0.6)
    assert found.exact.interval.low < 0.4 < found.exact.interval.high


@given(PAIRS)
def test_changed_about_the_markers_agree_as_much_and_differ_the_other_way(pairs: list[tuple[int, int]]) -> None:
    first, second = [a for a, _ in pairs], [b for _, b in pairs]
    one, other = agreement(first, second), agreement(second, first)
    assert (one.exact, one.within_one) == (other.exact, other.within_one)
    assert one.mean_difference == -other.mean_difference
    for a, b in ((one.kappa, other.kappa), (one.kappa_quadratic, other.kappa_quadratic)):
        assert (a is None and b is None) or a.value == b.value


def test_full_agreement_is_one_and_has_no_interval() -> None:
    found = agreement([0, 1, 2], [0, 1, 2])
    assert (found.kappa.value, found.kappa.interval, found.exact.value, found.mean_difference) == (1, None, 1, 0)


def test_figures_that_do_not_exist_are_none() -> None:
    nothing, one_mark = agreement([], []), agreement([2, 2, 2], [2, 2, 2])
    assert (nothing.exact, nothing.within_one, nothing.mean_difference, nothing.kappa) == (None,) * 4
    assert (one_mark.kappa, one_mark.kappa_linear, one_mark.kappa_quadratic) == (None,) * 3
    assert one_mark.exact.value == 1


def test_markers_of_unlike_numbers_of_marks_are_refused() -> None:
    with pytest.raises(ValueError, match="one marker has 2 marks, the other 1"):
        agreement([1, 2], [1])
