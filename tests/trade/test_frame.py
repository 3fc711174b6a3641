"""The projecting frame round a panel: where its runs stand, which arris to level on each, and when there is none.

Sizes by UK metric bricks: 102.5 mm deep, courses of 75 mm with beds of 10.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import FORMATS, Format, TradeError, clear_height, height, projecting_frame


@pytest.mark.parametrize(
    ("eye", "rule", "bottom", "top"),
    [
        # common practice, no source: outline levels the top arris above the eye, the underside below; near the other way
        (1000, "outline", "underside", "top"),
        (1000, "near", "top", "underside"),
        (300, "outline", "top", "top"),
        (2500, "outline", "underside", "underside"),
    ],
)
def test_the_two_runs_of_a_frame_can_ask_for_different_arrises(eye, rule, bottom, top) -> None:
    frame = projecting_frame(15, 6, eye, 25, rule=rule)
    assert (frame.bottom_arris, frame.top_arris) == (bottom, top)
    assert (frame.bottom_height, frame.top_height) == (450 + 10 + Fraction("102.5"), 450 + 1135 - 10)


@given(st.integers(4, 30), st.integers(1, 20), st.sampled_from(sorted(FORMATS)))
def test_a_bed_lies_under_the_bottom_run_and_over_the_top_run(courses, below, name) -> None:
    """Derived: the frame lies in the opening, a bed off the wall below and off the brick above."""
    format = FORMATS[name]
    frame = projecting_frame(courses, below, 10**6, 20, format)
    floor = height(below, format)
    assert frame.bottom_height - format.width == floor + format.bed
    assert frame.top_height == floor + clear_height(courses, format) - format.bed
    assert frame.projects == 20


@pytest.mark.parametrize(
    ("eye", "bottom", "top"),
    [
        ("562.4", "top", "top"),
        ("562.6", "underside", "top"),
        ("1574.9", "underside", "top"),
        ("1575.1", "underside", "underside"),
    ],
)
def test_the_arris_turns_where_the_eye_passes_a_runs_top(eye, bottom, top) -> None:
    frame = projecting_frame(15, 6, eye, 25)
    assert (frame.bottom_arris, frame.top_arris) == (bottom, top)


def test_the_least_opening_is_of_three_courses() -> None:
    assert projecting_frame(3, 4, 1500, 25).top_height == 525  # 300 + 235 − 10


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: projecting_frame(15, 6, 1000, 90), "the UK limit for corbels allows 56 mm"),
        (lambda: projecting_frame(15, 6, 1000, 31, limit="uk_oversail"), "allows 30 mm"),
        (lambda: projecting_frame(15, 6, Fraction("562.5"), 25), "the eye line runs along the course itself"),
        (lambda: projecting_frame(15, 6, 1575, 25), "the eye line runs along the course itself, at 1575 mm"),
        (lambda: projecting_frame(2, 4, 1500, 25), "an opening of 2 courses leaves nothing between the runs"),
        (lambda: projecting_frame(1, 4, 1500, 25), "an opening of 1 course leaves nothing between the runs"),
    ],
)
def test_a_frame_that_cannot_be_set_out_is_refused(ask: Callable[[], object], says: str) -> None:
    with pytest.raises(TradeError) as told:
        ask()
    assert says in str(told.value)


def test_runs_that_meet_leave_nothing_between_them() -> None:
    """Derived: two courses of 75 and a bed more are 160 mm; so are two beds and two runs 70 deep."""
    meeting = Format("narrow", 215, 70, 65, 10, 10)
    with pytest.raises(TradeError, match="leaves nothing between the runs"):
        projecting_frame(2, 4, 1500, 25, meeting)
    just_apart = Format("narrower", 215, "69.9", 65, 10, 10)
    assert projecting_frame(2, 4, 1500, 25, just_apart).bottom_height == 300 + 10 + Fraction("69.9")
