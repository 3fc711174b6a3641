"""How much mortar: from the geometry of the wall, with frogs and waste as stated allowances."""

from __future__ import annotations

from fractions import Fraction

from courseware.trade.bricks import allowance, area_above_0, bricks_for_area
from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.wall import wall_thickness

_CUBIC_METRE = 10**9  # mm³


def mortar_volume(
    area_m2: Exact,
    format: Format = UK_METRIC,
    *,
    thickness: Exact = "1/2",
    frog_percent: Exact = 0,
    waste_percent: Exact = 0,
) -> Fraction:
    """Mortar in m³ for `area_m2` of wall: its volume less that of its bricks, with every joint full.

    `frog_percent` is the part of a brick's volume that is frog or perforations, taken as filled with mortar: a
    hollow belongs to the brick, and makers state it so. Waste is added to the whole. Raises
    `TradeError` for an area not above 0, a thickness not in half bricks, a frog below 0 or the whole brick, or
    waste below 0.

    >>> round(mortar_volume(1), 4), round(mortar_volume(1, thickness=1), 4)
    (Fraction(11, 625), Fraction(113, 2500))
    """
    area = area_above_0(area_m2)
    brick = _solid(format, number(frog_percent))
    wall = area * wall_thickness(thickness, format) / 1000
    solid = bricks_for_area(area, format, thickness=thickness) * brick
    return (wall - solid) * allowance(waste_percent, "waste")


def _solid(format: Format, frog_percent: Fraction) -> Fraction:
    if not 0 <= frog_percent < 100:
        raise TradeError(
            f"frogs of {size(frog_percent)} per cent of the brick cannot be: they are 0 or more, and less than 100"
        )
    volume = format.length * format.width * format.height / _CUBIC_METRE
    return volume * (100 - frog_percent) / 100
