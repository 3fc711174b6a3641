"""A wall in lifts read back: the first lift course by course to its height, the rest broken out."""

from __future__ import annotations

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import pens

# Courses of a lift and its height: 4 courses to 300 mm
LIFTS = [(3, 225), (8, 600), (12, 900), (20, 1500), (24, 1800)]


@pytest.mark.parametrize(("each", "high"), LIFTS)
@pytest.mark.parametrize("lifts", [2, 4, 8])
def test_the_first_lift_has_its_courses_and_no_other_can_be_counted(drawn, lifts, each, high) -> None:
    sheet = drawn("lifts", {}, lifts=lifts, each=each)
    rows = sheet.courses()
    assert len(rows) == each
    scale = min(SCALES, key=lambda n: abs(n - 65 / rows[0][0].height))
    datum, first, top = sorted((line.coords[0][1] for line in (*pens(sheet, "0.5"), *pens(sheet, "0.7"))), reverse=True)
    assert (datum - first) * scale == pytest.approx(high, abs=0.5)
    assert (datum - rows[-1][0].top) * scale == pytest.approx(high, abs=0.5)
    assert first - top == pytest.approx(15, abs=0.01)  # whatever the number of lifts
    breaks = [line for line in pens(sheet, "0.18") if len(line.coords) == 6]
    assert len(breaks) == 2
    assert all(top < line.coords[0][1] < first for line in breaks)


def test_its_courses_in_all_are_left_to_find(drawn) -> None:
    sheet = drawn("lifts", {"lift": "900", "each": "12 courses", "courses": None}, lifts=4, each=12)
    assert set(sheet.texts) == {"900", "12 courses"}
