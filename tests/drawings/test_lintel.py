"""A lintel read back: over its opening, on the wall at both ends, the bond carried on round it."""

from __future__ import annotations

import pytest
from shapely.geometry import box

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import BRICK, HALF_BRICK, boxes, pens, shade

# Bricks and the opening in mm: sheet-9, Table 1, CO+
OPENINGS = [(2, 460), ("5.5", 1247.5), (4, 910), (7, 1585), (16, 3610)]


@pytest.mark.parametrize("bearing", [100, 150, 300])
@pytest.mark.parametrize(("bricks", "wide"), OPENINGS)
def test_it_spans_the_opening_and_bears_on_the_wall_at_both_ends(drawn, bricks, wide, bearing) -> None:
    sheet = drawn("lintel", {}, bricks=bricks, bearing=bearing)
    [beam] = boxes(sheet, shade(HALF_BRICK))
    laid = boxes(sheet, shade(BRICK))
    scale = min(SCALES, key=lambda n: abs(n - 65 / laid[0].height))
    left, right = sorted(
        line.coords[0][0]
        for line in pens(sheet, "0.35")
        if len(line.coords) == 2 and line.coords[0][0] == line.coords[1][0]
    )
    assert (right - left) * scale == pytest.approx(wide, abs=0.3)
    assert (left - beam.left) * scale == pytest.approx(bearing, abs=0.3)
    assert (beam.right - right) * scale == pytest.approx(bearing, abs=0.3)
    assert beam.height * scale == pytest.approx(140, abs=0.3)
    void = box(left, beam.bottom, right, beam.bottom + 4 * 75 / scale)
    shapes = [box(b.left, b.top, b.right, b.bottom) for b in laid]
    solid = box(beam.left, beam.top, beam.right, beam.bottom)
    for place, brick in enumerate(shapes):
        assert brick.intersection(void).area < 0.02
        assert brick.distance(solid) * scale > 9.7
        assert all(brick.distance(other) * scale > 9.7 for other in shapes[place + 1 :])


@pytest.mark.parametrize(("bricks", "wide"), OPENINGS)
def test_it_rests_on_bricks_at_both_ends_and_carries_whole_bricks(drawn, bricks, wide) -> None:
    sheet = drawn("lintel", {}, bricks=bricks)
    [beam] = boxes(sheet, shade(HALF_BRICK))
    laid = boxes(sheet, shade(BRICK))
    scale = min(SCALES, key=lambda n: abs(n - 65 / laid[0].height))
    under = [b for b in laid if 0 < b.top - beam.bottom < 15 / scale]
    assert any(b.left < beam.left < b.right for b in under)
    assert any(b.left < beam.right < b.right for b in under)
    over = [b for b in laid if b.bottom < beam.top]
    assert {round(b.width * scale) for b in over} == {215}
