"""A panel in stack bond read back: perpends over each other, a corner of it drawn, the outline to scale."""

from __future__ import annotations

import pytest

from courseware.trade import TradeError
from tests.drawings.conftest import on_wall

# Bricks by courses, and the panel in mm: sheet-9, Table 1, CO-; 75 a course less a bed.
PANELS = [(2, 3, 440, 215), (5, 20, 1115, 1490), (6, 32, 1340, 2390)]


@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), PANELS)
def test_every_perpend_stands_over_the_last_and_bricks_are_a_joint_apart(drawn, bricks, courses, wide, high) -> None:
    wall = on_wall(drawn("stack_bond", {}, bricks=bricks, courses=courses), wide)
    assert wall.frame.bounds == pytest.approx((0, 0, wide, high), abs=0.1)
    laid = [piece.bounds for piece in wall.all_pieces]
    lefts, lows = ({round(bounds[axis]) for bounds in laid} for axis in (0, 1))
    assert lefts == {225 * n for n in range(len(lefts))}
    assert lows == {75 * n for n in range(len(lows))}
    assert len(laid) == len(lefts) * len(lows)
    for left, low, right, top in laid:
        assert (right - left, top - low) == pytest.approx((215, 65), abs=0.1)


@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), PANELS)
def test_what_is_to_be_counted_is_not_drawn(drawn, bricks, courses, wide, high) -> None:
    wall = on_wall(drawn("stack_bond", {}, bricks=bricks, courses=courses), wide)
    across, up = (len({round(piece.bounds[axis]) for piece in wall.all_pieces}) for axis in (0, 1))
    assert 0 < across < bricks
    assert 0 < up < courses
    assert max(piece.bounds[2] for piece in wall.all_pieces) < wide
    assert max(piece.bounds[3] for piece in wall.all_pieces) < high


def test_half_bricks_are_refused(drawn) -> None:
    with pytest.raises(TradeError, match="no half bricks"):
        drawn("stack_bond", {}, bricks="5.5", courses=20)
