"""What drawings of heights and of lengths in outline measure, and what they refuse: at the limit, under and over it."""

from fractions import Fraction

import pytest

from courseware.banks.drawing_kinds_heights import HEIGHT_KINDS
from courseware.trade import UK_METRIC, TradeError


def measured(kind, **figures):
    known = HEIGHT_KINDS[kind]
    whole = {**known.optional, **figures}
    return {name: measure(whole, UK_METRIC) for name, measure in known.dimensions.items()}


def built(kind, **figures):
    known = HEIGHT_KINDS[kind]
    return known.builds({**known.optional, **figures}, UK_METRIC)


# Lengths in a UK metric brick: Sheet 9, Table 1 (3 bricks CO- 665, CO+ 685, and 675 to a return). Heights at four
# courses to 300 mm (a livery company's glossary).
@pytest.mark.parametrize(
    ("kind", "figures", "sizes"),
    [
        ("fixed_height", {"laid": 4, "fixed": 1500}, {"laid_height": 300, "left": 1200, "fixed": 1500}),
        ("heights", {"courses": 8}, {"height": 600, "face_height": 590, "clear_height": 610}),
        ("lining_through", {"gauge": 78, "brick": 66}, {"four": 312, "ten": 660, "bed": 12}),
        ("beside_old", {"courses": 8, "drop": 150}, {"old_height": 600, "height": 750}),
        ("datum_carried", {"datum": 1000, "steps": 4, "courses": 8}, {"rise": 300, "above": 700, "apart": 100}),
        ("datum_carried", {"datum": 1000, "steps": 4, "courses": 12}, {"rise": 300, "above": 700, "apart": 200}),
        ("bands", {"first": 4, "second": 8, "third": 24, "eye_height": 1500},
         {"first_from_eye": 1200, "second_from_eye": 900, "third_from_eye": 300, "second_to_third": 1200}),
        ("above_the_eye", {"eye_height": 1470, "more": 4}, {"first_from_eye": 30, "band_from_eye": 330}),
        ("string_course", {"bricks": 3, "course": 28}, {"length": 665, "height": 2100}),
        ("windows", {"end": 3, "window": 3, "middle": 3, "courses": 4},
         {"end": 675, "window": 685, "pier": 665, "window_and_pier": 1350, "whole": 3385, "height": 300}),
        ("reveals", {"bricks": 3, "courses": 4}, {"width": 685, "height": 300}),
    ],
)  # fmt: skip
def test_what_a_drawing_measures(kind, figures, sizes) -> None:
    found = measured(kind, **figures)
    assert {name: found[name] for name in sizes} == sizes


def test_an_eye_line_at_the_top_of_a_course_has_that_course_first_with_nothing_over_it() -> None:
    assert measured("above_the_eye", eye_height=1500, more=1)["first_from_eye"] == 0
    assert measured("above_the_eye", eye_height=1501, more=1)["first_from_eye"] == 74
    assert measured("above_the_eye", eye_height=1499, more=1)["first_from_eye"] == 1


def test_the_courses_laid_stay_under_what_is_fixed() -> None:
    assert measured("fixed_height", laid=4, fixed=301)["left"] == 1
    for fixed in (300, 299):
        with pytest.raises(TradeError, match="reach the fixed height"):
            measured("fixed_height", laid=4, fixed=fixed)


def test_a_brick_leaves_a_bed_in_its_gauge() -> None:
    assert measured("lining_through", gauge=67, brick=66)["bed"] == 1
    assert built("beside_old", gauge=67, old_brick=66) == 1
    for brick in (67, 68):
        with pytest.raises(TradeError, match="no bed is left"):
            measured("lining_through", gauge=67, brick=brick)
        with pytest.raises(TradeError, match="no bed is left"):
            built("beside_old", gauge=67, old_brick=brick)


def test_the_higher_footing_lies_under_the_datum() -> None:
    assert measured("datum_carried", datum=301, steps=4, courses=1)["above"] == 1
    for datum in (300, 299):
        with pytest.raises(TradeError, match="reaches the datum"):
            measured("datum_carried", datum=datum, steps=4, courses=1)


def test_bands_rise_one_over_another() -> None:
    built("bands", first=4, second=5, third=6, fourth=0, eye_height=1500)
    built("bands", first=4, eye_height=1500)
    for second in (4, 3):
        with pytest.raises(TradeError, match="do not rise"):
            built("bands", first=4, second=second, eye_height=1500)


@pytest.mark.parametrize(
    ("kind", "figures"),
    [
        ("corbel_reach", {"reach": 120, "wall": 440, "top_course": Fraction(61, 2)}),
        ("rod_marks", {"lowest": Fraction(5, 2), "step": 1}),
        ("rod_marks", {"lowest": 5, "step": Fraction(3, 2)}),
    ],
)
def test_courses_are_whole(kind, figures) -> None:
    with pytest.raises(TradeError, match="courses cannot be laid"):
        built(kind, **figures)
