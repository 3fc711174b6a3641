"""Roots, angles and pi: exact where they are, else to the places asked for, against exact values and Python's decimal."""

from __future__ import annotations

import math
from decimal import Decimal, getcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import TradeError
from courseware.trade.exact_functions import MOST_PLACES, cosine, pi, root, sine, tangent


@pytest.mark.parametrize(("x", "exact"), [(0, 0), (1, 1), (25, 5), ("6.25", "2.5"), ("4/9", "2/3"), ("0.0001", "0.01")])
def test_an_exact_root_is_exact(x: object, exact: object) -> None:
    assert root(x) == root(x, 0) == Fraction(str(exact))


@given(st.integers(0, 10**9), st.integers(0, MOST_PLACES))
def test_a_root_to_places_is_pythons_decimal_root(x: int, places: int) -> None:
    getcontext().prec = 60
    found = root(x, places)
    if math.isqrt(x) ** 2 == x:
        assert found == math.isqrt(x)
    else:
        assert found == Fraction(Decimal(x).sqrt().quantize(Decimal(1).scaleb(-places), rounding="ROUND_HALF_UP"))


# Exact values, by geometry of the square and the equilateral triangle: sin 45° = √2/2, sin 60° = √3/2, tan 60° = √3.
@pytest.mark.parametrize(
    ("found", "exact"),
    [
        (sine(30, 6), Fraction(1, 2)), (sine(45, 6), root(Fraction(1, 2), 6)), (sine(60, 6), root(Fraction(3, 4), 6)),
        (sine(90, 6), 1), (sine(180, 6), 0), (sine(210, 6), Fraction(-1, 2)), (sine(-30, 6), Fraction(-1, 2)),
        (cosine(0, 6), 1), (cosine(60, 6), Fraction(1, 2)), (cosine(90, 6), 0), (cosine(120, 6), Fraction(-1, 2)),
        (tangent(45, 6), 1), (tangent(60, 6), root(3, 6)), (tangent(0, 6), 0), (tangent(135, 6), -1),
    ],
)  # fmt: skip
def test_angles_whose_values_are_known_exactly(found: Fraction, exact: object) -> None:
    assert found == exact


@given(st.fractions(-720, 720, max_denominator=60), st.integers(0, 9))
def test_angles_agree_with_pythons_own_to_the_last_place(degrees: Fraction, places: int) -> None:
    """The math library, in floats: within half of the last place and its own error."""
    near = Fraction(1, 2 * 10**places) + Fraction(1, 10**13)
    assert abs(sine(degrees, places) - Fraction(math.sin(math.radians(degrees)))) <= near
    assert abs(cosine(degrees, places) - Fraction(math.cos(math.radians(degrees)))) <= near


@pytest.mark.parametrize("short", [1, 5, 9, 11])
def test_a_tangent_close_to_a_right_angle_has_every_place_asked_for(short: int) -> None:
    """The tangent of 90 less x is 1/x less x/3, the next term far below the last place; pi is OEIS A000796."""
    getcontext().prec = 60
    x = Decimal("3.14159265358979323846264338327950288419716939937510582") / 180 / 10**short
    near = 1 / x - x / 3 - x**3 / 45 - 2 * x**5 / 945
    asked = Fraction(90) - Fraction(1, 10**short)
    assert tangent(asked, 12) == Fraction(near.quantize(Decimal("1e-12"), rounding="ROUND_HALF_UP"))


@pytest.mark.parametrize("places", range(MOST_PLACES + 1))
def test_pi_is_pythons_own(places: int) -> None:
    assert pi(places) == Fraction(Decimal(math.pi).quantize(Decimal(1).scaleb(-places), rounding="ROUND_HALF_UP"))


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (lambda: root(-1), "below 0"), (lambda: root(2), "has no end"), (lambda: root(2, 13), "expected 0 to 12"),
        (lambda: sine(30, -1), "expected 0 to 12"), (lambda: pi("1.5"), "expected 0 to 12"),
        (lambda: tangent(90, 2), "no tangent of 90"), (lambda: tangent(-90, 2), "no tangent"), (lambda: tangent(270, 2), "no tangent"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told(asked, says: str) -> None:
    with pytest.raises(TradeError, match=says):
        asked()
