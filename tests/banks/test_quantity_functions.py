"""Formula functions of levelling, walls and mortar: by the brick, by the centre's rule, with what may be left out.

What each gives stands in the table of `test_vocabulary`.
"""

from __future__ import annotations

import pytest

from courseware import trade
from courseware.banks.quantity_functions import quantities
from courseware.trade import GERMAN_NF, UK_METRIC, TradeError

OUTLINE = quantities(UK_METRIC, "outline")


@pytest.mark.parametrize("brick", [UK_METRIC, GERMAN_NF], ids=lambda brick: brick.name)
def test_they_go_by_the_brick_they_are_made_for(brick) -> None:
    own = quantities(brick, "outline")
    assert own["from_eye"].call(20, 1600) == trade.height(20, brick) - 1600
    assert own["mortar"].call(10) == trade.mortar_volume(10, brick)
    assert own["projection_total"].call("uk_corbel") == trade.wall_thickness(format=brick)


def test_the_arris_goes_by_the_centres_rule() -> None:
    near = quantities(UK_METRIC, "near")
    assert [own["arris"].call(1800, 1650) for own in (OUTLINE, near)] == ["top", "underside"]


@pytest.mark.parametrize(
    ("given", "square_metres"),
    [((4000, 2500), 10), ((4000, 2500, 1000, 2000), 8), ((4000, 2500, 0, 2000), 10), ((4000, 2500, 1000, 0), 10)],
)
def test_an_opening_of_no_size_is_none(given, square_metres: int) -> None:
    assert OUTLINE["wall_area"].call(*given) == square_metres


def test_what_may_be_left_out_is_named_in_any_order() -> None:
    assert OUTLINE["packs"].call(600, pack=500) == OUTLINE["packs"].call(600, 0, 500) == 2
    assert OUTLINE["bricks_for_area"].call(10, thickness=1, rate="site") == 1200  # brick-quantities
    assert OUTLINE["sand_m3"].call(7, "1:6") == 6  # six parts of seven, not dried


def test_an_unknown_limit_is_told_with_those_there_are() -> None:
    with pytest.raises(TradeError, match="no limit on a projection is named none: use uk_corbel"):
        OUTLINE["projection_per_course"].call("none")


def test_every_function_has_its_line_for_the_manual() -> None:
    assert all(function.says for function in OUTLINE.values())
