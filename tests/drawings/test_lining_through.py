"""New work toothed into old, read back: every course of one lines through with the other's, and ten bricks lie dry."""

from itertools import pairwise

import pytest

from courseware.drawings.looks import LOOKS
from courseware.drawings.scale import SCALES
from tests.drawings.conftest import boxes, plumb_dimensions

OLD_GREY = "#" + f"{round(LOOKS['old'].fill * 255):02x}" * 3
PAIRS = [(73, 62), (79, 68), (77, 66)]


def mm(sheet):
    """How many mm of wall a mm of paper is, by a stretcher's length, 215 mm (Sheet 9, opening paragraph)."""
    return min(SCALES, key=lambda n: abs(n - 215 / max(brick.width for brick in sheet.stretchers)))


def walls(sheet):
    """Courses of the old wall and of the new from below, and the stack from below."""
    old = boxes(sheet, OLD_GREY)
    stack = sorted((b for b in sheet.stretchers if b.left > max(o.right for o in old) + 30), key=lambda b: -b.bottom)
    new = [b for b in sheet.bricks if b not in stack]

    def rows(bricks):
        bottoms = sorted({round(b.bottom, 2) for b in bricks}, reverse=True)
        return [sorted((b for b in bricks if round(b.bottom, 2) == low), key=lambda b: b.left) for low in bottoms]

    return rows(old), rows(new), stack


@pytest.mark.parametrize(("gauge", "brick"), PAIRS)
def test_every_course_lines_through_a_joint_away(drawn, gauge, brick) -> None:
    sheet = drawn("lining_through", {"bed": None}, gauge=gauge, brick=brick)
    n, (old, new, _) = mm(sheet), walls(sheet)
    assert len(old) == len(new) == 7
    for left, right in zip(old, new, strict=True):
        assert left[0].top == pytest.approx(right[0].top, abs=0.01)
        assert right[0].left - left[-1].right == pytest.approx(10 / n, abs=0.01)
        assert right[0].height == pytest.approx(brick / n, abs=0.01)
    for lower, upper in pairwise(new):
        assert lower[0].top - upper[0].bottom == pytest.approx((gauge - brick) / n, abs=0.01)
    ends = [row[-1].right for row in old]
    assert len({round(end, 2) for end in ends}) == 2  # toothed: half a brick further in every other course
    assert all(a != b for a, b in pairwise(ends))


@pytest.mark.parametrize(("gauge", "brick"), PAIRS)
def test_ten_bricks_touch_in_the_stack_and_four_courses_are_measured_top_to_top(drawn, gauge, brick) -> None:
    sheet = drawn("lining_through", {"four": "FOUR", "ten": "TEN", "bed": None}, gauge=gauge, brick=brick)
    old, _, stack = walls(sheet)
    assert len(stack) == 10
    assert all(a.top == pytest.approx(b.bottom, abs=0.01) for a, b in pairwise(stack))
    four, bed, ten = plumb_dimensions(sheet).values()
    assert four == pytest.approx([old[0][0].top, old[4][0].top], abs=0.02)
    assert bed[0] - bed[1] == pytest.approx((gauge - brick) / mm(sheet), abs=0.02)
    assert ten == pytest.approx([stack[0].bottom, stack[-1].top], abs=0.02)
