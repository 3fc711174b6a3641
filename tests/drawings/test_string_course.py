"""A string course in its wall, read back: its bricks, from one stopped end to the other, at its height."""

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import level_dimensions, level_of, plumb_dimensions, runs

CASES = [(12, 24), (30, 32), (17, 27)]


@pytest.mark.parametrize(("bricks", "course"), CASES)
def test_the_course_is_as_long_as_the_wall_and_at_its_height(drawn, bricks, course) -> None:
    sheet = drawn("string_course", {}, bricks=bricks, course=course)
    laid = sorted(sheet.projecting, key=lambda brick: brick.left)
    n = min(SCALES, key=lambda n: abs(n - 65 / laid[0].height))
    halves = [brick for brick in laid if brick.width * n < 110]
    assert len(laid) - len(halves) + len(halves) / 2 == bricks
    assert (laid[-1].right - laid[0].left) * n == pytest.approx(bricks * 225 - 10, abs=0.5)
    assert (level_of(sheet, "datum") - laid[0].top) * n == pytest.approx(course * 75, abs=0.5)
    faces = [p for a, closed, p in runs(sheet.root) if closed and len(p) == 4 and a.get("stroke-width") == "0.35"]
    [face] = faces
    assert (min(x for x, _ in face), max(x for x, _ in face)) == pytest.approx((laid[0].left, laid[-1].right), abs=0.01)
    assert min(y for _, y in face) < laid[0].top  # the wall goes on over it
    assert f"course {course}" in sheet.texts


def test_its_length_and_its_height_are_measured_on_it(drawn) -> None:
    sheet = drawn("string_course", {"length": None, "height": None}, bricks=12, course=31)
    laid = sorted(sheet.projecting, key=lambda brick: brick.left)
    [(left, right, _)] = level_dimensions(sheet)
    assert (left, right) == pytest.approx((laid[0].left, laid[-1].right), abs=0.02)
    [ends] = [ys for ys in plumb_dimensions(sheet).values() if len(ys) == 2]
    assert ends == pytest.approx([level_of(sheet, "datum"), laid[0].top], abs=0.02)
