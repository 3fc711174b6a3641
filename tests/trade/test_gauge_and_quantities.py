"""Courses, projecting courses and quantities against printed figures and worked examples."""

import math
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
    angle_of_sight,
    arris_to_level,
    batch,
    bricks_for_area,
    clear_height,
    courses_in,
    courses_to_reach,
    face_height,
    height,
    mortar_volume,
    order,
    regauge,
    wall_area_m2,
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


@given(st.fractions(200, 3000, max_denominator=4))
def test_a_regauged_height_is_filled_by_its_courses(size: Fraction) -> None:
    found = regauge(size)
    assert found.courses * found.gauge == size
    assert found.gauge == found.bed + 65


def test_a_height_between_courses_is_refused_with_both_sides() -> None:
    with pytest.raises(TradeError, match=r"the nearest are 975 mm .* and 1050 mm"):
        courses_in(1000)


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


def test_bricks_for_an_area() -> None:
    """Source: brick-quantities; exactly 1/(0.225 × 0.075) and the site rule of 60 and 120."""
    assert bricks_for_area(1) == 1 / (Fraction("0.225") * Fraction("0.075"))
    assert (bricks_for_area(1, rate="site"), bricks_for_area(1, rate="site", thickness=1)) == (60, 120)


def test_round_up_once_at_the_end() -> None:
    """Arithmetic: 12.9045 m² at 60 and 5 % is 812.98, so 813; 2 m² is exactly 126, never 127."""
    assert order(bricks_for_area("12.9045", rate="site"), 5) == 813
    assert order(bricks_for_area(2, rate="site"), 5) == 126


def test_navedtra_brick_estimate() -> None:
    """Source: navedtra-14045: 6.16 bricks a square foot, 690 bricks, mortar 11.7 cubic feet per 1000."""
    standard = Format("US standard", 8 * INCH, Fraction(15, 4) * INCH, Fraction(9, 4) * INCH, INCH / 2, INCH / 2)
    square_foot = Fraction("0.3048") ** 2
    assert round(bricks_for_area(square_foot, standard), 2) == Fraction("6.16")
    assert order(bricks_for_area(112 * square_foot, standard)) == 690
    mortar = 1000 * mortar_volume(1, standard) / bricks_for_area(1, standard)
    assert round(mortar / Fraction("0.3048") ** 3, 1) == Fraction("11.7")


@pytest.mark.parametrize(("thickness", "volume"), [("1/2", "0.0176"), (1, "0.0452")])
def test_mortar_from_geometry(thickness, volume: str) -> None:
    """Geometry, UK metric, m³ a m²: the wall less its solid bricks."""
    assert round(mortar_volume(1, thickness=thickness), 4) == Fraction(volume)


@pytest.mark.parametrize(("mix", "cement", "sand"), [("1:5", "0.53", "2.64"), ("1:3", "0.79", "2.37")])
def test_a_batch_by_volume(mix: str, cement: str, sand: str) -> None:
    """Source: brick-quantities: 2.53 m³ × 1.25; the page first takes 3.2, so its figures are a hair higher."""
    found = batch("2.53", mix, dry_factor="1.25")
    assert (round(found.cement_m3, 2), round(found.sand_m3, 2)) == (Fraction(cement), Fraction(sand))


@pytest.mark.parametrize(
    ("mix", "cement", "sand"),
    [("1:6", "0.45", "2.7"), ("1:5", "0.53", "2.67"), ("1:4", "0.64", "2.56"), ("1:3", "0.80", "2.40")],
)
def test_the_printed_batches(mix: str, cement: str, sand: str) -> None:
    """Source: brick-quantities, 3.2 m³ dry; printed to two places, some cut, some rounded."""
    found = batch("3.2", mix)
    assert abs(found.cement_m3 - Fraction(cement)) < Fraction(1, 100)
    assert abs(found.sand_m3 - Fraction(sand)) < Fraction(5, 100)


def test_an_opening_larger_than_its_wall_is_refused() -> None:
    with pytest.raises(TradeError, match="is larger than its wall"):
        wall_area_m2(1000, 1000, [(1200, 500)])
