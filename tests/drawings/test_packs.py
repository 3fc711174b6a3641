"""Packs read back: one for each that holds bricks, as high as it holds them, and every loose brick drawn."""

from __future__ import annotations

import pytest

from tests.drawings.conftest import BRICK, boxes, shade

LOOSE_WIDE = 4.3  # mm of paper


def packs_and_loose(sheet):
    found = boxes(sheet, shade(BRICK))
    loose = [box for box in found if box.width == pytest.approx(LOOSE_WIDE, abs=0.01)]
    fronts = [box for box in found if box.width == pytest.approx(18, abs=0.01)]
    return fronts, loose


@pytest.mark.parametrize("counts", [(390, 430, 500), (400, 452, 475), (500, 390, 430)])
def test_packs_are_as_high_as_they_hold_bricks(drawn, counts) -> None:
    sheet = drawn("packs", {}, first=counts[0], second=counts[1], third=counts[2])
    fronts, loose = packs_and_loose(sheet)
    assert loose == []
    assert [front.height / fronts[0].height for front in fronts] == pytest.approx(
        [count / counts[0] for count in counts], rel=1e-3
    )
    assert sheet.texts == ("A", "B", "C")


@pytest.mark.parametrize("count", [1, 9, 10, 11, 15, 95, 100])
def test_every_loose_brick_is_drawn_and_none_floats_or_overlaps(drawn, count) -> None:
    sheet = drawn("packs", {}, first=400, loose=count)
    fronts, loose = packs_and_loose(sheet)
    assert len(fronts) == 1
    assert len(loose) == count
    assert sheet.texts == ()  # one pack alone has no name
    rows: dict[float, int] = {}
    for brick in loose:
        rows[round(brick.top, 2)] = rows.get(round(brick.top, 2), 0) + 1
    from_the_ground = [rows[top] for top in sorted(rows, reverse=True)]
    assert from_the_ground == sorted(from_the_ground, reverse=True)
    assert from_the_ground[:-1] == [10] * (len(from_the_ground) - 1)


def test_a_count_that_is_asked_for_is_a_box_to_write_in(drawn) -> None:
    sheet = drawn("packs", {"first": "400 bricks", "loose": None}, first=400, loose=35)
    assert sheet.texts == ("400 bricks",)
    assert sum(round(box.width, 1) == 20 for box in sheet.white) == 1
