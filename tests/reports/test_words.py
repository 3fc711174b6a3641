"""Figures in words for a reader who knows no statistics."""

from __future__ import annotations

import pytest

from courseware.reports.words import DASH, between, plain, share, two, whole_percent
from courseware.statistics.intervals import Index, Interval


@pytest.mark.parametrize(("value", "says"), [
    (None, DASH), (0.0, "0.00"), (-0.001, "0.00"), (-0.004, "0.00"), (-0.006, "−0.01"), (-0.25, "−0.25"), (26.166, "26.17"),
])  # fmt: skip
def test_a_figure_to_two_places_has_a_true_minus_and_never_minus_nought(value, says: str) -> None:
    assert two(value) == says


@pytest.mark.parametrize(
    ("low", "says"), [(-1.01, "below −1 to 0.50"), (-1.0, "−1.00 to 0.50"), (-0.99, "−0.99 to 0.50")]
)
def test_a_limit_below_what_can_be_is_only_said_to_be_that(low: float, says: str) -> None:
    assert between(Interval(low=low, high=0.5)) == says
    assert between(None) == DASH


@pytest.mark.parametrize(
    ("value", "percent"), [(0.0, 0), (0.0049, 0), (0.005, 1), (0.624, 62), (0.625, 63), (0.9949, 99), (1.0, 100)]
)
def test_per_cent_go_to_the_nearest_whole_one_halves_upwards(value: float, percent: int) -> None:
    assert whole_percent(value) == percent


def test_a_share_has_its_interval() -> None:
    assert share(Index(value=0.58, n=12, interval=Interval(low=0.39, high=0.86))) == "58\u00a0% (39 to 86)"
    assert share(Index(value=0.58, n=12, interval=None)) == "58\u00a0%"
    assert share(None) == DASH


def test_a_name_of_the_banks_is_read_as_words() -> None:
    assert plain("opening-for-a-panel") == "opening for a panel"
    assert plain("uk_course") == "UK course"
