"""A corner squared with a tape, read back: two lines at a right angle, marks on both, the tape from mark to mark."""

from __future__ import annotations

import math

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import boxes, level_dimensions, runs

CORNERS = [(1200, 900, 1500), (4000, 3000, 5000), (600, 800, 1000), (12000, 5000, 13000)]  # 3-4-5 and 5-12-13


@pytest.mark.parametrize(("along", "up", "across"), CORNERS)
def test_the_tape_runs_from_mark_to_mark_and_the_marks_lie_on_the_two_lines(drawn, along, up, across) -> None:
    sheet = drawn("square_corner", {}, along=along, up=up)
    found = list(runs(sheet.root))
    [heavy] = [
        points for a, closed, points in found if not closed and len(points) == 3 and a.get("stroke-width") == "0.35"
    ]
    [tape] = [points for a, closed, points in found if not closed and a.get("stroke-dasharray")]
    (left, level), corner, (plumb, top) = heavy
    assert (level, plumb) == (corner[1], corner[0])  # a right angle, its lines to the left and up
    assert left < corner[0]
    assert top < corner[1]
    (x1, y1), (x2, y2) = sorted(tape)
    assert (y1, x2) == pytest.approx((corner[1], corner[0]), abs=0.002)
    n = min(SCALES, key=lambda known: abs(known - along / (corner[0] - x1)))
    assert (corner[0] - x1, corner[1] - y2) == pytest.approx((along / n, up / n), abs=0.002)
    assert math.dist((x1, y1), (x2, y2)) == pytest.approx(across / n, abs=0.003)
    assert left < x1  # the lines run on beyond the marks
    assert top < y2
    dots = [((box.left + box.right) / 2, (box.top + box.bottom) / 2) for box in boxes(sheet, "#000000")]
    assert dots == [pytest.approx((x1, y1), abs=0.002), pytest.approx((x2, y2), abs=0.002)]


@pytest.mark.parametrize(("along", "up", "across"), CORNERS)
def test_the_sizes_are_measured_from_the_corner_and_the_tape_is_blank_where_it_is_asked_for(
    drawn, along, up, across
) -> None:
    del across
    sheet = drawn("square_corner", {"along": "ALONG", "up": "UP", "tape": None}, along=along, up=up)
    found = list(runs(sheet.root))
    [(_, corner, _)] = [
        points for a, closed, points in found if not closed and len(points) == 3 and a.get("stroke-width") == "0.35"
    ]
    [tape] = [points for a, closed, points in found if not closed and a.get("stroke-dasharray")]
    [(left, right, _)] = level_dimensions(sheet)
    assert (left, right) == pytest.approx((min(x for x, _ in tape), corner[0]), abs=0.002)
    assert set(sheet.texts) == {"ALONG", "UP"}
    assert len(sheet.white) == 1
    assert sheet.white[0].right <= corner[0]
