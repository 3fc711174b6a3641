"""A batch of mortar read back: one box of cement, so many of sand, all of one size."""

from __future__ import annotations

import pytest

from tests.drawings.conftest import HALF_BRICK, PROJECTING, boxes, shade


@pytest.mark.parametrize("sand", range(1, 9))
def test_there_is_one_box_of_cement_and_as_many_of_sand_as_the_mix_says(drawn, sand) -> None:
    sheet = drawn("batch", {"sand": f"{sand} boxes", "bag": "25 kg"}, sand=sand)
    cement, of_sand = boxes(sheet, shade(PROJECTING)), boxes(sheet, shade(HALF_BRICK))
    assert (len(cement), len(of_sand)) == (1, sand)
    for box in of_sand:
        assert (box.width, box.height) == pytest.approx((cement[0].width, cement[0].height), abs=0.01)
        assert box.left > cement[0].right
    assert {"25 kg", f"{sand} boxes", "sand", "cement", "+"} == set(sheet.texts)
