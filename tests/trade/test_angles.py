"""Roots, sines and pi in whole numbers: against exact values and Python's own at their last place."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade.angles import ONE, PI, arctan, exact_root, fine_sine, root, sine_and_cosine

MILLIONTH_OF_A_MILLIONTH = Fraction(1, 10**12)


def test_pi_has_its_known_digits() -> None:
    """OEIS A000796, to 45 places: the last three of the 48 kept are the series' own error."""
    assert PI // 10**3 == 3141592653589793238462643383279502884197169399


@pytest.mark.parametrize(("up", "along", "of_pi"), [(0, 1, 0), (1, 1, 4), (5, 5, 4)])
def test_the_arc_tangents_known_exactly(up: int, along: int, of_pi: int) -> None:
    assert abs(arctan(up, along) - (PI // of_pi if of_pi else 0)) < 10**4


@given(st.integers(0, 500), st.integers(1, 500))
def test_an_arc_tangent_is_pythons(up: int, along: int) -> None:
    assert arctan(min(up, along), along) / ONE == pytest.approx(math.atan2(min(up, along), along), abs=1e-15)


@given(st.fractions(0, 10**6, max_denominator=1000))
def test_the_root_of_a_square_is_exact(value: Fraction) -> None:
    assert root(value * value) == exact_root(value * value) == value


@given(st.fractions(0, 10**6, max_denominator=1000))
def test_any_other_root_is_the_last_millionth_of_a_millionth_below_it(value: Fraction) -> None:
    found = root(value)
    assert found**2 <= value < (found + MILLIONTH_OF_A_MILLIONTH) ** 2


@pytest.mark.parametrize("value", [Fraction(2), Fraction(4, 3), Fraction(3, 4), Fraction(99), Fraction(101)])
def test_a_root_without_end_is_not_exact(value: Fraction) -> None:
    assert exact_root(value) is None


# By geometry of the square and of the equilateral triangle.
@pytest.mark.parametrize(
    ("degrees", "sine_squared"), [(0, 0), (30, Fraction(1, 4)), (45, Fraction(1, 2)), (60, Fraction(3, 4)), (90, 1)]
)
def test_angles_known_exactly(degrees: int, sine_squared: Fraction) -> None:
    sine, cosine = sine_and_cosine(Fraction(degrees))
    assert abs(sine - root(Fraction(sine_squared))) <= MILLIONTH_OF_A_MILLIONTH
    assert abs(cosine - root(Fraction(1 - sine_squared))) <= MILLIONTH_OF_A_MILLIONTH


@given(st.fractions(0, 90, max_denominator=60))
def test_sine_and_cosine_are_pythons_to_the_last_place(degrees: Fraction) -> None:
    sine, cosine = map(float, sine_and_cosine(degrees))
    assert sine == pytest.approx(math.sin(math.radians(degrees)), abs=6e-13)
    assert cosine == pytest.approx(math.cos(math.radians(degrees)), abs=6e-13)


@given(st.fractions(0, 90, max_denominator=60))
def test_a_fine_sine_and_that_of_what_is_left_to_a_right_angle_make_one(degrees: Fraction) -> None:
    """Pythagoras, to forty places."""
    assert abs(fine_sine(degrees) ** 2 + fine_sine(90 - degrees) ** 2 - ONE**2) < ONE**2 // 10**40
