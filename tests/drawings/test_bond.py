"""Stretcher bond, drawn with [__] for a stretcher and [] for a half brick."""

import itertools
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.drawings.bond import bats, bed_of, run, section, stopped, toothed, wholes
from courseware.trade import FORMATS, UK_METRIC, height, pier

HALVES = st.integers(2, 24).map(lambda n: Fraction(n, 2))


def as_text(course):
    return "".join("[]" if brick.half else "[__]" for brick in course)


def perps(course):
    """Middles of the upright joints between the bricks of a course."""
    return {round((a.right + b.left) / 2, 6) for a, b in itertools.pairwise(course)}


def test_whole_bricks_between_stopped_ends_take_a_half_at_both_ends_of_every_other_course() -> None:
    assert [as_text(stopped(Fraction(3), row, UK_METRIC)) for row in (1, 0)] == [
        "[][__][__][]",
        "[__][__][__]",
    ]


def test_bricks_and_a_half_take_a_half_at_one_end_then_at_the_other() -> None:
    assert [as_text(stopped(Fraction(7, 2), row, UK_METRIC)) for row in (1, 0)] == [
        "[][__][__][__]",
        "[__][__][__][]",
    ]


def test_half_a_brick_is_a_half_in_every_course() -> None:
    assert [as_text(stopped(Fraction(1, 2), row, UK_METRIC)) for row in (1, 0)] == ["[]", "[]"]


def test_a_wall_that_goes_on_is_toothed_in_stretchers_alone() -> None:
    low, next_up = (toothed(3, row, UK_METRIC) for row in (0, 1))
    assert as_text(low) == as_text(next_up) == "[__][__][__]"
    assert next_up[0].left - low[0].left == UK_METRIC.half


@pytest.mark.parametrize("name", FORMATS)
@given(bricks=HALVES, row=st.integers(-2, 40))
def test_a_course_is_as_long_as_a_pier_and_lies_on_its_bed(name: str, bricks: Fraction, row: int) -> None:
    brick = FORMATS[name]
    course = stopped(bricks, row, brick)
    assert course[0].left == 0
    assert course[-1].right == pytest.approx(float(pier(bricks, brick)))
    assert (course[0].bottom, course[0].top) == bed_of(row, brick)
    assert len(wholes(course)) + Fraction(len(bats(course)), 2) == bricks


@pytest.mark.parametrize("name", FORMATS)
@given(bricks=HALVES, row=st.integers(0, 40))
def test_bond_breaks_joint_by_half_a_brick_and_no_perp_stands_above_a_perp(
    name: str, bricks: Fraction, row: int
) -> None:
    brick = FORMATS[name]
    below, above = perps(stopped(bricks, row, brick)), perps(stopped(bricks, row + 1, brick))
    assert not below & above
    for perp in above & {p for p in above if below}:
        assert min(abs(perp - other) for other in below) == pytest.approx(float(brick.half))


@pytest.mark.parametrize("name", FORMATS)
def test_the_top_of_a_course_is_where_the_trade_core_has_it(name: str) -> None:
    brick = FORMATS[name]
    assert bed_of(-1, brick)[1] == 0
    for courses in (1, 4, 30):
        assert bed_of(courses - 1, brick)[1] == pytest.approx(float(height(courses, brick)))


def test_a_run_may_begin_anywhere_and_with_a_half() -> None:
    course = run(Fraction(3, 2), Fraction(910), 0, UK_METRIC, half_first=True)
    assert [(brick.left, brick.right) for brick in course] == [(910, 1012.5), (1022.5, 1237.5)]


def test_a_section_shows_one_brick_width() -> None:
    brick = section(0, UK_METRIC, Fraction(-25))
    assert (brick.left, brick.bottom, brick.right, brick.top) == (-25, 10, 77.5, 75)
