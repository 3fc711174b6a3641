"""What goes into the mixer: cement, lime and sand by volume, and the bags to open."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number

CEMENT_DENSITY = 1440  # kg/m³, as the sources of the worked examples take it
SAND_DENSITY = 1920  # kg/m³, likewise


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Materials of a batch: volumes in m³, masses in kg, and whole bags of cement, rounded up once."""

    cement_m3: Fraction
    sand_m3: Fraction
    cement_kg: Fraction
    sand_kg: Fraction
    bags: int
    lime_m3: Fraction = Fraction(0)


def batch(
    volume_m3: Exact,
    mix: str = "1:5",
    *,
    dry_factor: Exact = 1,
    cement_density: Exact = CEMENT_DENSITY,
    sand_density: Exact = SAND_DENSITY,
    bag_kg: Exact = 25,
) -> Batch:
    """Materials for `volume_m3` of mortar at this mix by volume, "cement:sand" or "cement:lime:sand".

    `dry_factor` is what the wet volume is multiplied by to get the dry: sources differ (1.25, 1.33), so the
    question states it. Densities are kg/m³. Raises `TradeError` for a mix it cannot read, a figure not above 0
    or a dry factor below 1.

    >>> made = batch("3.2", "1:4")
    >>> str(made.cement_m3), str(made.sand_m3), made.bags
    ('16/25', '64/25', 37)
    """
    cement, lime, sand = parts_of(mix)
    factor = number(dry_factor)
    if factor < 1:
        raise TradeError(f"a dry factor of {size(factor)} cannot be: dry materials shrink when wet, so it is 1 or more")
    part = _above_0(volume_m3, "a volume") * factor / (cement + lime + sand)
    cement_kg = part * cement * _above_0(cement_density, "a density of cement")
    return Batch(
        cement_m3=part * cement,
        sand_m3=part * sand,
        cement_kg=cement_kg,
        sand_kg=part * sand * _above_0(sand_density, "a density of sand"),
        bags=math.ceil(cement_kg / _above_0(bag_kg, "a bag's mass")),
        lime_m3=part * lime,
    )


def parts_of(mix: str) -> tuple[Fraction, Fraction, Fraction]:
    """The parts of cement, lime and sand in a mix such as "1:5" or "1:1:6"; `TradeError` if it is none.

    >>> [str(part) for part in parts_of("1:1/2:4")]
    ['1', '1/2', '4']
    """
    try:
        parts = [number(part) for part in mix.split(":")]
    except TradeError:
        parts = []
    if len(parts) == 2:
        parts.insert(1, Fraction(0))
    if len(parts) != 3 or parts[0] <= 0 or parts[1] < 0 or parts[2] <= 0:
        raise TradeError(f"{mix!r} is not a mix: write cement to sand as 1:5, or cement to lime to sand as 1:1:6")
    return parts[0], parts[1], parts[2]


def _above_0(value: Exact, what: str) -> Fraction:
    exact = number(value)
    if exact <= 0:
        raise TradeError(f"{what} of {size(exact)} makes no mortar: it must be above 0")
    return exact
