"""A brick carrier read back: as many bricks as it holds, side by side, within its bar."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.drawings.conftest import BRICK, boxes, pens, shade


@pytest.mark.parametrize("count", [2, 6, 7, 8, 12])
def test_it_holds_as_many_bricks_as_told_side_by_side(drawn, count) -> None:
    sheet = drawn("carrier", {}, bricks=count, each="2.3", empty=2)
    bricks = boxes(sheet, shade(BRICK))
    assert len(bricks) == count
    assert all(a.right == pytest.approx(b.left, abs=0.01) for a, b in pairwise(bricks))
    assert all((b.width * 10, b.height * 10) == pytest.approx((65, 102.5), abs=0.1) for b in bricks)
    bar = next(line for line in pens(sheet, "0.7") if len(line.coords) == 4)
    assert bar.bounds[0] < bricks[0].left
    assert bar.bounds[2] > bricks[-1].right


def test_what_a_full_load_weighs_is_left_to_find(drawn) -> None:
    sheet = drawn("carrier", {"each": "2.3 kg", "empty": "2 kg", "load": None}, bricks=7, each="2.3", empty=2)
    assert set(sheet.texts) == {"2.3 kg", "2 kg", "full"}
    assert sum(round(box.width, 1) == 20 for box in sheet.white) == 1
