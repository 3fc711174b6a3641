"""Basket weave that rises, read back: how far the upright stands above it, and a break that hides the count."""

from __future__ import annotations

import pytest

from tests.drawings.conftest import BRICK, HALF_BRICK, SOLDIER, boxes, pens, shade

ONE_TO = 20
STAGES = [(9, 1), (9, 2), (15, 3), (27, 2), (60, 4)]


def read_back(drawn, infill, ahead):
    sheet = drawn("uprights", {}, infill=infill, ahead=ahead)
    lying, standing = boxes(sheet, shade(BRICK)), boxes(sheet, shade(SOLDIER))
    pieces = boxes(sheet, shade(HALF_BRICK))
    uprights = [piece for piece in pieces if piece.width > piece.height]
    return sheet, lying, standing, uprights, [piece for piece in pieces if piece not in uprights]


@pytest.mark.parametrize(("infill", "ahead"), STAGES)
def test_the_upright_stands_so_many_courses_above_the_panel(drawn, infill, ahead) -> None:
    _, lying, standing, uprights, _ = read_back(drawn, infill, ahead)
    panel_top = min(brick.top for brick in (*lying, *standing))
    above = [piece for piece in uprights if piece.bottom < panel_top]
    assert len(above) == ahead
    assert panel_top - min(piece.top for piece in uprights) == pytest.approx(75 * ahead / ONE_TO, abs=0.01)


@pytest.mark.parametrize(("infill", "ahead"), STAGES)
def test_the_panel_is_two_bays_wide_and_its_lowest_and_highest_bays_alone_are_drawn(drawn, infill, ahead) -> None:
    sheet, lying, standing, uprights, bottom = read_back(drawn, infill, ahead)
    assert (len(lying), len(standing)) == (6, 6)
    assert len(uprights) == 6 + ahead
    assert len(bottom) == 8
    assert all(brick.width / brick.height == pytest.approx(215 / 65, rel=0.01) for brick in lying)
    level = [line for line in pens(sheet, "0.18") if len(line.coords) == 6 and line.coords[0][1] == line.coords[-1][1]]
    gap = sorted(line.coords[0][1] for line in level)
    assert len(gap) == 2
    for brick in (*lying, *standing, *uprights):
        assert brick.bottom <= gap[0] or brick.top >= gap[1]


def test_a_bay_of_the_head_is_the_one_that_stands_there_in_the_whole_panel(drawn) -> None:
    """Bays change along and up: with an odd number of rows the head starts as the foot does, else the other way."""
    for infill, alike in ((9, True), (12, False), (15, True), (18, False)):
        _, lying, _, _, _ = read_back(drawn, infill, 2)
        foot, head = max(lying, key=lambda b: b.bottom), min(lying, key=lambda b: b.top)
        assert (abs(foot.left - head.left) < 0.01) is alike


@pytest.mark.parametrize("gap", [9, 14, 35, 60])
def test_a_gap_has_its_first_bays_and_its_reveal_in_bond_and_cannot_be_counted(drawn, gap) -> None:
    sheet = drawn("weave_gap", {"gap": f"{gap} courses"}, gap=gap)
    lying, standing = boxes(sheet, shade(BRICK)), boxes(sheet, shade(SOLDIER))
    assert (len(lying), len(standing)) == (3, 3)
    reveal = min(brick.left for brick in lying)
    jamb = [brick for brick in boxes(sheet, "none") if brick.right <= reveal + 0.01]
    assert {round(brick.right, 2) for brick in jamb} == {round(reveal, 2)}
    assert {round(brick.width * ONE_TO, 1) for brick in jamb} == {215.0, 102.5}
    assert len(jamb) < 12
    assert sheet.texts == (f"{gap} courses",)
