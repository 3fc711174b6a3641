"""Mortar for an area of brickwork, against its geometry."""

from fractions import Fraction

import pytest

from courseware.trade import (
    mortar_volume,
)


@pytest.mark.parametrize(("thickness", "volume"), [("1/2", "0.0176"), (1, "0.0452")])
def test_mortar_from_geometry(thickness, volume: str) -> None:
    """Geometry, UK metric, m³ a m²: the wall less its solid bricks."""
    assert round(mortar_volume(1, thickness=thickness), 4) == Fraction(volume)
