"""The area of a wall less its openings."""

import pytest

from courseware.trade import (
    TradeError,
    wall_area_m2,
)


def test_an_opening_larger_than_its_wall_is_refused() -> None:
    with pytest.raises(TradeError, match="is larger than its wall"):
        wall_area_m2(1000, 1000, [(1200, 500)])
