"""A basket-weave panel read back: its bricks fill it a joint apart, and bay stands against bay."""

from __future__ import annotations

import pytest

from courseware.trade import basket_weave
from tests.drawings.conftest import BRICK, SOLDIER, on_wall, spread

# Bricks by courses, and the panel's size in mm: sheet-9, Table 1, CO- (piers of 1, 2, 3 and 5), and 75 a course less a bed.
PANELS = [(1, 3, 215, 215), (2, 9, 440, 665), (3, 12, 665, 890), (5, 6, 1115, 440)]


def read_back(drawn, bricks: int, courses: int, wide: int, starts: str = "stretcher"):
    return on_wall(drawn("panel", {}, bricks=bricks, courses=courses, starts=starts), wide)


def lies(piece) -> bool:
    left, low, right, top = piece.bounds
    return right - left > top - low


@pytest.mark.parametrize("starts", ["stretcher", "soldier"])
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), PANELS)
def test_bricks_fill_the_panel_a_joint_apart_and_none_lies_on_another(drawn, bricks, courses, wide, high, starts):
    wall = read_back(drawn, bricks, courses, wide, starts)
    together, twice = spread(wall.all_pieces, 10)
    assert together.bounds == pytest.approx((-5, -5, wide + 5, high + 5), abs=0.1)
    assert together.area == pytest.approx((wide + 10) * (high + 10), rel=1e-4)
    assert twice == pytest.approx(0, abs=1e-4 * together.area)


@pytest.mark.parametrize("starts", ["stretcher", "soldier"])
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), PANELS)
def test_it_has_the_bricks_that_the_list_of_resources_has(drawn, bricks, courses, wide, high, starts):
    """Three to a bay, bays of one module: bricks by courses. Stretchers light, soldiers darker, each 215 by 65."""
    wall = read_back(drawn, bricks, courses, wide, starts)
    weave = basket_weave(bricks, courses, starts=starts)
    light, dark = (wall.pieces.get(grey, ()) for grey in (BRICK, SOLDIER))
    assert (len(light), len(dark)) == (weave.stretchers, weave.soldiers)
    assert len(light) + len(dark) == bricks * courses == 3 * weave.bays
    assert all(lies(piece) for piece in light)
    assert not any(lies(piece) for piece in dark)
    for piece in wall.all_pieces:
        left, low, right, top = piece.bounds
        assert sorted((right - left, top - low)) == pytest.approx([65, 215], abs=0.1)


@pytest.mark.parametrize("starts", ["stretcher", "soldier"])
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), PANELS)
def test_a_bay_of_stretchers_stands_against_bays_of_soldiers(drawn, bricks, courses, wide, high, starts):
    """The lower left bay is what the panel starts with; each next one, along or up, is of the other kind."""
    wall = read_back(drawn, bricks, courses, wide, starts)
    bays: dict[tuple[int, int], list[bool]] = {}
    for piece in wall.all_pieces:
        middle = piece.centroid
        bays.setdefault((int(middle.x // 225), int(middle.y // 225)), []).append(lies(piece))
    assert len(bays) == bricks * courses // 3
    for (along, up), found in bays.items():
        assert found == [((along + up) % 2 == 0) is (starts == "stretcher")] * 3


@pytest.mark.parametrize(("bricks", "courses"), [(5, 12), (8, 24), (12, 36)])
def test_where_its_corners_alone_are_drawn_its_bays_cannot_be_counted(drawn, bricks, courses) -> None:
    """Two bays by two at the lower left and at the upper right, each where it stands in the whole panel."""
    wide = 225 * bricks - 10
    sheet = drawn("panel", {}, bricks=bricks, courses=courses, drawn="corners")
    wall = on_wall(sheet, wide)
    assert len(wall.all_pieces) == 2 * 4 * 3
    whole = {(b.kind, b.left, b.bottom) for b in basket_weave(bricks, courses).bricks}
    for grey, kind in ((BRICK, "stretcher"), (SOLDIER, "soldier")):
        for piece in wall.pieces[grey]:
            left, low, _, _ = piece.bounds
            assert any(k == kind and abs(x - left) < 0.5 and abs(y - low) < 0.5 for k, x, y in whole)
