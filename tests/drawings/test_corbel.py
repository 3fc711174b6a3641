"""A corbel in section read back: each course further out than the last, to the left, where the face is."""

from __future__ import annotations

from itertools import pairwise

import pytest
from shapely.geometry import LineString, box

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import BRICK, PROJECTING, boxes, level_dimensions, runs

LIGHT, DARK = ("#" + f"{round(grey * 255):02x}" * 3 for grey in (BRICK, PROJECTING))
CLOSE = 0.003  # mm of paper
# Courses, how far each stands out, and the wall in bricks and mm (sheet-9, Table 1, CO-: 1 and 1.5 bricks).
CORBELS = [(1, 30, "1", 215), (3, 56, "1", 215), (6, 34, "1.5", "327.5"), (8, 5, "1/2", "102.5")]


def rows_of(sheet):
    """All courses from the lowest, and the scale."""
    rows = sorted([*boxes(sheet, LIGHT), *boxes(sheet, DARK)], key=lambda row: -row.bottom)
    return rows, min(SCALES, key=lambda n: abs(n - 65 / rows[0].height))


@pytest.mark.parametrize(("steps", "each", "bricks", "thick"), CORBELS)
def test_each_course_stands_further_out_than_the_one_below_and_the_back_is_plumb(
    drawn, steps, each, bricks, thick
) -> None:
    rows, n = rows_of(drawn("corbel", {}, steps=steps, each=each, thickness=bricks))
    face = rows[0].left
    outs = [(face - row.left) * n for row in rows]
    assert outs == pytest.approx([0, 0, *(step * each for step in range(1, steps + 1)), *[steps * each] * 2], abs=0.1)
    assert rows[0].width == pytest.approx(float(thick) / n, abs=2 * CLOSE)
    for below, above in pairwise(rows):
        assert below.top - above.bottom == pytest.approx(10 / n, abs=CLOSE)
        assert above.right == pytest.approx(below.right, abs=CLOSE)
        assert above.height == pytest.approx(65 / n, abs=CLOSE)


@pytest.mark.parametrize(("steps", "each", "bricks", "thick"), CORBELS)
def test_courses_that_stand_out_are_dark_and_all_are_hatched_as_cut_through(drawn, steps, each, bricks, thick) -> None:
    del thick
    sheet = drawn("corbel", {}, steps=steps, each=each, thickness=bricks)
    rows, _ = rows_of(sheet)
    dark = boxes(sheet, DARK)
    assert [row in dark for row in rows] == [False] * 2 + [True] * steps + [False] * 2
    lines = [LineString(p) for a, closed, p in runs(sheet.root) if not closed and a.get("stroke-width") == "0.13"]
    shapes = [box(row.left, row.top, row.right, row.bottom).buffer(0.01) for row in rows]
    for shape in shapes:
        assert any(shape.covers(line) for line in lines)
    assert all(any(shape.covers(line) for shape in shapes) for line in lines)


@pytest.mark.parametrize(("steps", "each", "bricks", "thick"), CORBELS)
def test_the_three_sizes_run_between_the_faces_that_they_name(drawn, steps, each, bricks, thick) -> None:
    for name, size in (("each", each), ("total", steps * each), ("thickness", float(thick))):
        sheet = drawn("corbel", {name: "SIZE"}, steps=steps, each=each, thickness=bricks)
        rows, n = rows_of(sheet)
        [(left, right, _)] = level_dimensions(sheet)
        start = rows[0].left
        expected = (start, start + size / n) if name == "thickness" else (start - size / n, start)
        assert (left, right) == pytest.approx(expected, abs=0.01)
        assert "SIZE" in sheet.texts
    asked = drawn("corbel", {"total": None}, steps=steps, each=each, thickness=bricks)
    assert asked.texts == ("section",)
    assert [box.width for box in asked.white] == pytest.approx([20])
