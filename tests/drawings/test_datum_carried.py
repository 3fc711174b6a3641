"""A datum carried to a higher footing, read back: footings, datum and wall at their levels, each size between two."""

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import boxes, level_of, plumb_dimensions, runs

CASES = [(900, 9, 12), (1300, 3, 6), (1050, 8, 6), (1000, 4, 8)]  # the wall over the datum, under it, level with it


def read_back(drawn, datum, steps, courses, labels=None):
    sheet = drawn("datum_carried", labels or {}, datum=datum, steps=steps, courses=courses)
    wall = sorted(sheet.bricks, key=lambda brick: -brick.bottom)
    gate, high = boxes(sheet, "none")
    return sheet, wall, gate, high, min(SCALES, key=lambda n: abs(n - 65 / wall[0].height))


@pytest.mark.parametrize(("datum", "steps", "courses"), CASES)
def test_footings_datum_and_wall_stand_at_their_levels(drawn, datum, steps, courses) -> None:
    sheet, wall, gate, high, n = read_back(drawn, datum, steps, courses)
    assert len(wall) == courses
    assert (gate.top - high.top) * n == pytest.approx(75 * steps, abs=0.5)
    assert (high.top - wall[-1].top) * n == pytest.approx(75 * courses, abs=0.5)
    assert wall[0].bottom < high.top  # a bed below the first course
    assert (gate.top - level_of(sheet, "site datum")) * n == pytest.approx(datum, abs=0.5)
    assert gate.right < high.left
    [dashed] = [points for a, closed, points in runs(sheet.root) if not closed and a.get("stroke-dasharray")]
    assert [y for _, y in dashed] == pytest.approx([level_of(sheet, "site datum")] * 2, abs=0.01)
    assert max(x for x, _ in dashed) == pytest.approx(wall[0].right, abs=0.01)


@pytest.mark.parametrize(("datum", "steps", "courses"), CASES)
def test_the_ground_rises_from_footing_to_footing(drawn, datum, steps, courses) -> None:
    sheet, _, gate, high, _ = read_back(drawn, datum, steps, courses)
    slopes = [p for a, closed, p in runs(sheet.root) if not closed and len(p) == 2 and a.get("stroke-width") == "0.7"]
    [[low, up]] = slopes
    assert low == pytest.approx((gate.right, gate.top), abs=0.01)
    assert up == pytest.approx((high.left, high.top), abs=0.01)


def test_each_size_runs_between_the_levels_that_it_names(drawn) -> None:
    labels = {"datum": "1300", "rise": None, "above": None, "apart": None}
    sheet, wall, gate, high, _ = read_back(drawn, 1300, 3, 6, labels)
    site = level_of(sheet, "site datum")
    at_peg, apart, chain = plumb_dimensions(sheet).values()
    assert at_peg == pytest.approx([gate.top, site], abs=0.02)
    assert apart == pytest.approx([wall[-1].top, site], abs=0.02)
    assert chain == pytest.approx([gate.top, high.top, site], abs=0.02)
    assert "1300" in sheet.texts
    assert len([box for box in boxes(sheet, "#ffffff") if box.width == pytest.approx(20)]) == 3
