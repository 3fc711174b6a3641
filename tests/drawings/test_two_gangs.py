"""A wall that two gangs build, read back: three courses from end to end, the next begun alike at both ends."""

from __future__ import annotations

from itertools import pairwise

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import SVG, boxes, pens

# Bricks and the wall's length: sheet-9, Table 1, CO-
WALLS = [(6, 6, 1340), (10, 12, 2240), (15, 18, 3365), (20, 30, 4490), (30, 40, 6740)]


@pytest.mark.parametrize(("bricks", "courses", "wide"), WALLS)
def test_three_courses_stand_and_two_bricks_of_the_next_at_either_end(drawn, bricks, courses, wide) -> None:
    sheet = drawn("two_gangs", {}, bricks=bricks, courses=courses, first=45, second=30)
    rows = sheet.courses()
    [outline] = boxes(sheet, "none")
    scale = min(SCALES, key=lambda n: abs(n - wide / outline.width))
    assert outline.width * scale == pytest.approx(wide, abs=0.5)
    assert outline.height * scale == pytest.approx(75 * courses, abs=0.5)
    assert len(rows) == 4
    for row in rows[:3]:
        assert all((b.left - a.right) * scale == pytest.approx(10, abs=0.5) for a, b in pairwise(row))
        assert (row[-1].right - row[0].left) * scale == pytest.approx(wide, abs=0.5)
    begun = rows[3]
    assert len(begun) == 4
    assert (begun[1].right - outline.left) == pytest.approx(outline.right - begun[2].left, abs=0.01)
    [line] = [line for line in pens(sheet, "0.25") if line.length > outline.width]
    assert line.coords[0][1] == pytest.approx(begun[0].top, abs=0.01)  # the line is at the top of the course being laid


def test_how_fast_each_gang_is_stands_in_its_own_half(drawn) -> None:
    labels = {"first": "45 an hour", "second": "30 an hour"}
    sheet = drawn("two_gangs", labels, bricks=15, courses=18, first=45, second=30)
    where = {text.text: float(text.attrib["x"]) for text in sheet.root.iter(f"{SVG}text")}
    assert where["first gang"] == where["45 an hour"] < where["second gang"] == where["30 an hour"]
