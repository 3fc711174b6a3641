"""The arris to level on, and the angle it is seen at."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import (
    TradeError,
    angle_of_sight,
    arris_to_level,
)


@pytest.mark.parametrize(
    ("course", "eye", "rule", "arris"),
    [
        (1800, 1600, "outline", "top"),
        (1200, 1600, "outline", "underside"),
        (1800, 1600, "near", "underside"),
        (1200, 1600, "near", "top"),
    ],
)
def test_the_arris_levelled_follows_the_centres_rule(course: int, eye: int, rule: str, arris: str) -> None:
    """Common practice, no source: both rules are taught."""
    assert arris_to_level(course, eye, rule) == arris


def test_a_course_on_the_eye_line_is_refused() -> None:
    with pytest.raises(TradeError, match="the eye line runs along the course itself"):
        arris_to_level(1500, 1500)


@given(st.integers(-5000, 5000), st.integers(1, 9000))
def test_the_angle_of_sight_agrees_with_the_mathematics_library(rise: int, distance: int) -> None:
    assert abs(float(angle_of_sight(rise, distance)) - math.degrees(math.atan(rise / distance))) < 1e-6
