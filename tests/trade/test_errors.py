"""How messages write sizes, bricks and courses: short where there is a short form, never longer than can be read."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.trade.errors import halves, in_bricks, in_courses, size


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (910, "910"),
        (Fraction("112.5"), "112.5"),
        (Fraction("0.000001"), "0.000001"),  # six places are still written
        (Fraction(250, 3), "83 1/3"),
        (Fraction(1, 3), "1/3"),
        (Fraction(-1, 3), "-1/3"),
        (Fraction(-250, 3), "-83 1/3"),
        (Fraction("-0.5"), "-0.5"),
        (Fraction(1, 999), "1/999"),
        (Fraction(1000), "1000"),
        (Fraction(2, 1001), "about 0.002"),  # a denominator above a thousand says nothing to anyone
        (Fraction(-1236, 1001), "about -1.235"),
        (Fraction(1, 10**7), "about 0.000"),
        (2**99, str(2**99)),
        (2**100, str(2**100)),
        (2**101, "a figure too long to write"),
    ],
)
def test_a_size_is_written_short_and_exact_where_it_can_be(value, written) -> None:
    assert size(value) == written


@pytest.mark.parametrize(
    ("bricks", "written"),
    [
        (Fraction(1, 2), "half a brick"),
        (1, "1 brick"),
        (Fraction(3, 2), "1½ bricks"),
        (0, "0 bricks"),
        (4, "4 bricks"),
        (Fraction(13, 4), "3.25 bricks"),
        (Fraction(-1, 2), "-0.5 bricks"),
    ],
)
def test_bricks_are_said_as_a_bricklayer_says_them(bricks, written) -> None:
    assert in_bricks(bricks) == written


def test_halves_alone() -> None:
    assert [halves(Fraction(n, 2)) for n in (1, 2, 7)] == ["½", "1", "3½"]
    assert halves(Fraction(10, 3)) == "3 1/3"


def test_courses() -> None:
    assert [in_courses(n) for n in (0, 1, 2)] == ["0 courses", "1 course", "2 courses"]
