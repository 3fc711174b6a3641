"""What keeps a wall up while it is green: bricks by the geometry of stretcher bond, days by their height."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.jobs.support import days_of, support_bricks
from courseware.trade import UK_METRIC
from tests.jobs.a_panel import job


@pytest.mark.parametrize(
    ("day_height", "ends"),
    [(1500, (20, 24)), (1800, (24,)), (1799, (23, 24)), (900, (12, 24)), (75, tuple(range(1, 25)))],
)
def test_a_days_work_ends_on_a_course(day_height: int, ends: tuple[int, ...]) -> None:
    """Of 24 courses of 75 mm."""
    assert job(("hours: 6", f"hours: 6\nday_height: {day_height}")).days == ends


def test_a_days_work_is_never_less_than_a_course() -> None:
    assert days_of(3, Fraction(74), UK_METRIC) == (1, 2, 3)


def test_what_a_job_does_not_say_is_as_the_manual_says() -> None:
    """Common practice, no source: 1500 mm a day, 725 mm without support."""
    shape = job().task.shape
    assert (shape.day_height, shape.free_height) == (1500, 725)


@pytest.mark.parametrize(
    ("kind", "courses", "bricks"),
    [("returns", 24, 72), ("piers", 24, 48), ("props", 24, 0), ("", 24, 0), ("returns", 1, 3)],
)
def test_the_bricks_of_a_support(kind: str, courses: int, bricks: int) -> None:
    """Two bricks a course less half of the corner's, twice; a brick a course, twice; none. Geometry of stretcher bond."""
    assert support_bricks(kind, courses) == bricks


@pytest.mark.parametrize(
    ("day_height", "ends"),
    [(1200, (16, 24)), (1199, (15, 24)), (1201, (16, 24)), (1800, (24,)), (1799, (23, 24)), (75, tuple(range(1, 25)))],
)
def test_no_day_goes_up_by_more_than_its_height(day_height: int, ends: tuple[int, ...]) -> None:
    assert days_of(24, Fraction(day_height), UK_METRIC) == ends
