"""Courses and their heights from each datum, against printed figures."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import (
    AUSTRALIAN,
    GERMAN_2DF,
    GERMAN_DF,
    GERMAN_NF,
    US_MODULAR,
    Format,
    TradeError,
    clear_height,
    courses_in,
    courses_to_reach,
    face_height,
    height,
)

INCH = Fraction("25.4")


def test_four_courses_are_300() -> None:
    """Source: livery-glossary."""
    assert height(4) == 300


def test_the_three_datums_are_a_bed_apart() -> None:
    """Common practice, no source: c courses are 75c, 75c - 10 on the face and 75c + 10 clear, with 10 mm beds."""
    assert (face_height(12), height(12), clear_height(12)) == (890, 900, 910)


@pytest.mark.parametrize(("courses", "size"), [(1, 86), (2, 172), (35, 3010)])
def test_australian_heights(courses: int, size: int) -> None:
    """Source: australian-charts."""
    assert height(courses, AUSTRALIAN) == size


@pytest.mark.parametrize(("courses", "brick"), [(4, GERMAN_DF), (3, GERMAN_NF), (2, GERMAN_2DF)])
def test_german_courses_meet_250(courses: int, brick: Format) -> None:
    """Source: din-4172."""
    assert height(courses, brick) == 250


def test_three_us_modular_courses_are_eight_inches() -> None:
    """Brick Industry Association Technical Notes 10B."""
    assert height(3, US_MODULAR) == 8 * INCH


def test_1350_is_exactly_18_courses() -> None:
    assert courses_to_reach(1350) == courses_in(1350) == 18


@given(st.integers(1, 60), st.sampled_from(["height", "face", "clear"]))
def test_courses_in_undoes_each_datum(courses: int, datum: str) -> None:
    size = {"height": height, "face": face_height, "clear": clear_height}[datum](courses)
    assert courses_in(size, datum=datum) == courses


def test_a_height_between_courses_is_refused_with_both_sides() -> None:
    with pytest.raises(TradeError, match=r"the nearest are 975 mm .* and 1050 mm"):
        courses_in(1000)
