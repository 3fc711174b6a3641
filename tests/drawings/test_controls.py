"""The pictures of controls read back: four of one size, each within its frame, named, and not in the order asked for."""

from __future__ import annotations

import pytest

from tests.drawings.conftest import BRICK, boxes, runs, shade

NAMES = ("mask", "wet saw", "whole bricks", "one place")
IN_ORDER = ("whole bricks", "one place", "wet saw", "mask")  # HSE: avoid, reduce, water or extraction, mask
SIDE = 20


def frames(sheet):
    return [box for box in boxes(sheet, shade(1.0)) if round(box.width, 2) == SIDE]


def test_there_are_four_of_one_size_in_a_row_each_with_its_name(drawn) -> None:
    sheet = drawn("controls", {})
    found = frames(sheet)
    assert len(found) == 4
    assert {round(frame.top, 2) for frame in found} == {round(found[0].top, 2)}
    assert sheet.texts == NAMES
    for text, frame in zip((t for t in sheet.root.iter() if t.text in NAMES), found, strict=True):
        assert float(text.attrib["x"]) == pytest.approx((frame.left + frame.right) / 2, abs=0.01)


def test_every_line_lies_within_a_frame(drawn) -> None:
    sheet = drawn("controls", {})
    for _, _, points in runs(sheet.root):
        for x, y in points:
            assert any(
                f.left - 0.01 <= x <= f.right + 0.01 and f.top - 0.01 <= y <= f.bottom + 0.01 for f in frames(sheet)
            )


def test_the_order_of_control_cannot_be_read_off_either_way() -> None:
    assert NAMES not in (IN_ORDER, IN_ORDER[::-1])


def test_bricks_of_the_opening_are_whole_and_half_and_meet_two_plumb_reveals(drawn) -> None:
    sheet = drawn("controls", {})
    third = frames(sheet)[2]
    inside = [b for b in boxes(sheet, shade(BRICK)) if third.left < b.left and b.right < third.right]
    assert len({round(b.width, 2) for b in inside}) == 1
    assert len(inside) == 6
