"""A wall in section read back: its thickness, a cavity with blocks and ties or a coping, and all of it cut."""

from __future__ import annotations

import pytest

from courseware.drawings.frame import BRICK, HALF_BRICK
from tests.drawings.conftest import boxes, outlines, pens, shade

ONE_TO = 20
# sheet-9, Table 1: half a brick and a brick
THICK = [("1/2", 102.5), ("1", 215)]


@pytest.mark.parametrize(("bricks", "thick"), THICK)
def test_a_free_standing_wall_is_as_thick_as_told_and_has_a_coping_that_oversails(drawn, bricks, thick) -> None:
    sheet = drawn("wall_section", {}, thickness=bricks)
    courses = boxes(sheet, shade(BRICK))
    left, right = min(b.left for b in courses), max(b.right for b in courses)
    assert (right - left) * ONE_TO == pytest.approx(thick, abs=0.2)
    coping = min(outlines(sheet, HALF_BRICK), key=lambda piece: piece.bounds[1])
    assert coping.bounds[0] < left
    assert coping.bounds[2] > right
    assert coping.bounds[3] == pytest.approx(min(b.top for b in courses) - 10 / ONE_TO, abs=0.02)
    assert {"coping", "foundation"} == set(sheet.texts)


def test_a_wall_a_brick_thick_has_headers_between_stretchers(drawn) -> None:
    by_course: dict[float, list[float]] = {}
    for brick in boxes(drawn("wall_section", {}, thickness=1), shade(BRICK)):
        by_course.setdefault(round(brick.top, 2), []).append(round(brick.width * ONE_TO, 1))
    assert sorted(map(tuple, by_course.values())) == [(102.5, 102.5)] * 4 + [(215.0,)] * 4


def test_a_cavity_wall_has_blocks_behind_tied_over_the_cavity_and_no_coping(drawn) -> None:
    sheet = drawn("wall_section", {}, thickness="1/2", built="cavity")
    back = max(b.right for b in boxes(sheet, shade(BRICK)))
    blocks = boxes(sheet, shade(1.0))
    near = min(block.left for block in blocks)
    assert near - back == pytest.approx(100 / ONE_TO, abs=0.02)
    ties = pens(sheet, "0.7")
    assert len(ties) == 2
    for tie in ties:
        left, _, right, _ = tie.bounds
        assert left < back < near < right
        for brick in (*boxes(sheet, shade(BRICK)), *blocks):  # it lies in the beds
            assert not brick.top + 0.1 < tie.bounds[1] < brick.bottom - 0.1
    assert set(sheet.texts) == {"blocks", "tie", "foundation"}


@pytest.mark.parametrize("built", ["free", "cavity"])
def test_what_is_cut_has_a_heavy_edge_and_hatching_and_stands_on_the_foundation(drawn, built) -> None:
    sheet = drawn("wall_section", {}, built=built, thickness="1/2")
    lowest = max(boxes(sheet, shade(BRICK)), key=lambda b: b.bottom)
    ground = max(outlines(sheet, HALF_BRICK), key=lambda piece: piece.bounds[3])
    assert ground.bounds[1] - lowest.bottom == pytest.approx(10 / ONE_TO, abs=0.02)
    lines = pens(sheet, "0.13")
    assert all(any(brick.left - 0.1 <= line.bounds[0] <= brick.right for line in lines) for brick in [lowest])
