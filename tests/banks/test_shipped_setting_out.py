"""The shipped banks on setting out, gauge, projecting courses and quantities, read as a tutor reads them.

A slip's figure is what its words say; bands and windows stand where they are built.
"""

from __future__ import annotations

from fractions import Fraction
from functools import partial
from itertools import pairwise

import pytest

from courseware import trade
from courseware.banks import solve
from courseware.banks.drawing_kinds import drawn_figures
from courseware.banks.formulas import Value
from courseware.part_kinds.choice.bank import SolvedChoice
from courseware.trade import UK_METRIC
from tests.banks.shipped import EXERCISES, numbers, slip_figures
from tests.banks.shipped import variants as spread

variants = partial(spread, least=60)


# Worked by hand, each from the words of the slip and the givens alone. Derived, no source, from: a UK brick and its
# joint 225, a course 75 (Sheet 9, opening paragraph); a course of 73 mm bricks 83 (Sheet 9, Table 3); three German NF
# courses 250 (DIN 4172).
PIER, OPENING = "a pier between two windows", "a window opening, brick to brick"
SLIPS = [
    ("which-rule", {"bricks": 4, "taken": PIER, "courses": 15}, "joints_in_it", "One joint too many", 3 + 1),
    ("which-rule", {"bricks": 8, "taken": OPENING, "courses": 21}, "joints_in_it", "One joint too many", 9 + 1),
    ("which-rule", {"bricks": 4, "taken": PIER, "courses": 15}, "joints_in_it", "The rule of another", 4 + 1),
    ("which-rule", {"bricks": 8, "taken": OPENING, "courses": 21}, "joints_in_it", "The rule of another", 8 - 1),
    ("half-brick-opening", {"bricks": "5.5", "courses": 18}, "opening_width", "The half brick was taken", "1242.5"),
    ("half-brick-opening", {"bricks": "9.5", "courses": 19}, "opening_width", "The half brick was taken", "2142.5"),
    ("half-brick-opening", {"bricks": "5.5", "courses": 18}, "whole_length", "The joints were left out", 5 * 215),
    ("half-brick-opening", {"bricks": "9.5", "courses": 19}, "whole_length", "The joints were left out", 9 * 215),
    ("width-that-will-not-work", {"bricks": 6, "over": 45}, "size_below", "Whole bricks of 215", 6 * 215),  # 1405
    ("width-that-will-not-work", {"bricks": 10, "over": 50}, "size_below", "Whole bricks of 215", 10 * 215),  # 2310
    ("thick-bricks-in-an-old-opening", {"bricks": "6.5", "courses": 17}, "half_bricks", "Halves were counted", 9),
    ("thick-bricks-in-an-old-opening", {"bricks": "8.5", "courses": 28}, "half_bricks", "Halves were counted", 14),
    ("door-schedule", {"door": "5.5", "light": 2, "between": "1.5", "courses": 30}, "pier_length", "The half", "332.5"),
    ("door-schedule", {"door": "7.5", "light": 4, "between": "2.5", "courses": 30}, "pier_length", "The half", "557.5"),
    ("courses-under-the-sill", {"fits": 15, "over": 59}, "whole_courses", "Rounded up", 16),  # 1184 in 75s
    ("courses-under-the-sill", {"fits": 21, "over": 11}, "whole_courses", "Rounded up", 22),  # 1586 in 75s
    ("courses-under-the-sill", {"fits": 15, "over": 59}, "left_over", "The bed under the sill", 1194 - 15 * 75),
    ("courses-under-the-sill", {"fits": 21, "over": 11}, "left_over", "The bed under the sill", 1596 - 21 * 75),
    ("courses-under-the-sill", {"fits": 15, "over": 59}, "left_over", "Measured to one course", 16 * 75 + 10 - 1194),
    ("courses-under-the-sill", {"fits": 21, "over": 11}, "left_over", "Measured to one course", 22 * 75 + 10 - 1596),
    ("which-heights-work", {"low": 15, "step": 3, "datum": 2, "pattern": 1}, "how_many", "One course too many", 20),
    ("which-heights-work", {"low": 19, "step": 4, "datum": 0, "pattern": 0}, "how_many", "One course too few", 23),
    ("match-the-old-wall", {"old": 74, "mean": 62, "courses": 20, "mates": 11}, "new_top", "The first", 20 * 74 - 12),
    ("match-the-old-wall", {"old": 78, "mean": 67, "courses": 30, "mates": 12}, "new_top", "The first", 30 * 78 - 11),
    ("german-bricks-on-the-grid", {"threes": 6, "over": 184}, "stands_over", "The gauge was rounded", 21 * 83 - 1684),
    ("german-bricks-on-the-grid", {"threes": 9, "over": 218}, "stands_over", "The gauge was rounded", 30 * 83 - 2468),
    ("corbel-within-the-limit", {"steps": 3, "each": 57}, "most_each", "Only one of the two limits", 71),  # 215 ÷ 3
    ("corbel-within-the-limit", {"steps": 6, "each": 37}, "most_each", "Only one of the two limits", 56),
    ("two-limits-compared", {"reach": 82, "wall": "327.5", "top_course": 33}, "courses_b", "Rounded down", 3),
    ("two-limits-compared", {"reach": 130, "wall": 440, "top_course": 30}, "courses_a", "Rounded down", 2),
    ("order-of-a-list", {"long": 5400, "high": 2400, "wide": 900, "waste": 5}, "bricks_ordered", "The window", 1633),
    ("order-of-a-list", {"long": 8100, "high": 2100, "wide": 1350, "waste": 10}, "bricks_ordered", "The window", 2246),
    ("mortar-from-the-joints", {"area": 22, "thick": 1, "frog": 10, "waste": 10}, "mortar_needed", "The waste was left", 1370),
    ("mortar-from-the-joints", {"area": 37, "thick": 1, "frog": 10, "waste": 5}, "mortar_needed", "The waste was left", 2303),
    ("australian-bricks", {"area": 28, "joints": 10, "waste": 10, "pack": 560}, "to_order", "The waste was left", 1357),
    ("australian-bricks", {"area": 28, "joints": 8, "waste": 10, "pack": 560}, "to_order", "The waste was left", 1401),
]  # fmt: skip


@pytest.mark.parametrize(("name", "given", "part", "words", "figure"), SLIPS)
def test_a_slip_gives_the_figure_that_its_words_say(
    name: str, given: dict[str, Value], part: str, words: str, figure: int | str
) -> None:
    assert slip_figures(name, given, part, words) == [Fraction(figure)]


# Common practice, no source: bands a few courses apart, a plinth low on the wall.
@pytest.mark.parametrize(
    ("name", "bands"),
    [("three-bands", ("low", "mid", "high")), ("which-of-four-courses", ("low", "lower", "upper", "high"))],
)
def test_projecting_bands_stand_apart(name: str, bands: tuple[str, ...], space_of) -> None:
    for given in variants(name, space_of):
        courses = [int(str(given[band])) for band in bands]
        assert all(above - below >= 3 for below, above in pairwise(courses)), given
        assert courses[0] * 75 <= 450


def test_a_plinth_is_low(space_of) -> None:
    assert all(given["number"] * 75 <= 450 for given in variants("plinth-below-the-eye", space_of))


@pytest.mark.parametrize(
    "name",
    ["eye-line-from-the-ground", "german-string-course", "australian-band", "angle-from-the-pavement"],
)
def test_either_arris_can_be_the_one_to_level(name: str, space_of) -> None:
    _, exercise = EXERCISES[name]
    found = set()
    for given in variants(name, space_of):
        solved = solve(exercise, given)
        found |= {part.answer for part in solved if isinstance(part, SolvedChoice) and part.part.name == "arris_side"}
    assert found == {"top", "underside"}


@pytest.mark.parametrize("name", ["bricks-for-a-plain-wall", "window-taken-off", "forgotten-allowance"])
def test_walls_and_windows_of_a_quantity_are_whole_bricks_and_courses(name: str, space_of) -> None:
    _, exercise = EXERCISES[name]
    assert exercise.drawing is not None
    for given in variants(name, space_of):
        drawn = drawn_figures(exercise.drawing, given)
        for size, unit in (("length", 225), ("opening_width", 225), ("height", 75), ("opening_height", 75)):
            assert Fraction(drawn[size]) % unit == 0, (size, given)


def test_the_openings_of_a_list_are_openings_in_their_bond(space_of) -> None:
    for given in variants("order-of-a-list", space_of):
        assert (given["long"] % 225, given["wide"] % 225, given["high"] % 75) == (0, 0, 0)
    for given in variants("full-list", space_of):
        assert (given["long"] + 10) % 225 == 0
        assert (trade.opening(4, UK_METRIC), trade.clear_height(28, UK_METRIC)) == (910, 2110)  # the door


def test_mortar_from_rounded_bricks_is_the_mortar_of_the_joints_within_its_band(space_of) -> None:
    """NAVEDTRA 14045's way, wall less bricks, from the figures a learner has: within the part's own band."""
    _, exercise = EXERCISES["mortar-from-the-joints"]
    for given in variants("mortar-from-the-joints", space_of, 300):
        needed = numbers(exercise, given)["mortar_needed"]
        exact = trade.mortar_volume(
            given["area"], UK_METRIC, thickness=given["thick"], frog_percent=given["frog"], waste_percent=given["waste"]
        )
        assert abs(needed.exact - 1000 * exact) <= needed.within == 3  # litres


def test_a_diagonal_is_worked_out_in_whole_millimetres(space_of) -> None:
    _, exercise = EXERCISES["square-the-frame"]
    for given in variants("square-the-frame", space_of, 100):
        own = numbers(exercise, given)["frame_diagonal"]
        assert all(type(line) is int for line in own.working)
        assert (own.answer - Fraction(1, 2)) ** 2 <= own.working[1] < (own.answer + Fraction(1, 2)) ** 2
