"""Readings of noise read back: bars to one scale against the two action values and the limit."""

from __future__ import annotations

import pytest

from courseware.drawings.frame import BRICK, HALF_BRICK, PROJECTING
from tests.drawings.conftest import boxes, pens, shade

EACH = 1.7  # mm of paper to a dB(A)


@pytest.mark.parametrize("readings", [(74, 81, 86), (79, 84, 87), (76, 82, 88), (70, 80, 85), (79, 85, 95)])
def test_bars_stand_to_their_readings_and_lines_at_80_85_and_87(drawn, readings) -> None:
    """80 and 85 dB(A), limit 87: Control of Noise at Work Regulations 2005."""
    low, middle, high = readings
    sheet = drawn("noise_levels", {}, low=low, middle=middle, high=high)
    bars = [boxes(sheet, shade(grey))[0] for grey in (BRICK, HALF_BRICK, PROJECTING)]
    assert [round(70 + bar.height / EACH, 1) for bar in bars] == list(readings)
    foot = bars[0].bottom
    actions = sorted(round(70 + (foot - line.coords[0][1]) / EACH, 1) for line in pens(sheet, "0.25", dashed=True))
    [limit] = [round(70 + (foot - line.coords[0][1]) / EACH, 1) for line in pens(sheet, "0.5")]
    assert (actions, limit) == ([80, 85], 87)
    assert sheet.texts == ("80", "85", "87")


def test_what_is_over_an_action_value_is_left_to_find(drawn) -> None:
    labels = {"low": "76 dB(A)", "over_first": None, "over_second": None}
    sheet = drawn("noise_levels", labels, low=76, middle=82, high=89)
    blanks = [box for box in sheet.white if (round(box.width, 1), round(box.height, 1)) == (20, 7.5)]
    bars = [boxes(sheet, shade(grey))[0] for grey in (BRICK, HALF_BRICK, PROJECTING)]
    assert len(blanks) == 2
    for blank in blanks:
        assert all(blank.right <= bar.left or blank.left >= bar.right for bar in bars)
