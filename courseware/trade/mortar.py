"""Mortar from geometry, and its batch by volume.

Solid bricks and full joints; frogs and waste are allowances that the question states.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from courseware.trade.bricks import bricks_for_area
from courseware.trade.exact import Number, TradeError, above_nothing, number
from courseware.trade.formats import UK_METRIC, Format

_MM_IN_M = 1000
_MM3_IN_M3 = 10**9
CEMENT_KG_M3 = Fraction(1440)  # trade-facts section 5, both densities
SAND_KG_M3 = Fraction(1920)


@dataclass(frozen=True, slots=True)
class Batch:
    """What a volume of mortar is mixed from: volumes in m³, masses in kg, whole bags of cement."""

    cement_m3: Fraction
    lime_m3: Fraction
    sand_m3: Fraction
    cement_kg: Fraction
    sand_kg: Fraction
    bags: int


def mortar_volume(
    area_m2: Number,
    format: Format = UK_METRIC,
    *,
    thickness: Number = Fraction(1, 2),
    frog_percent: Number = 0,
    waste_percent: Number = 0,
) -> Fraction:
    """Mortar in m³ for an area of wall 1/2 or 1 brick thick: the wall less its bricks, then the allowances.

    `frog_percent` is the share of each brick's volume that is frog and fills with mortar. Source of the method and
    the figures it is tested by: trade-facts section 5 (0.0176 and 0.0452 m³ a m² for UK metric).
    """
    area = above_nothing(area_m2, "an area")
    bricks = bricks_for_area(area, format, thickness=thickness)
    depth = format.width if number(thickness) == Fraction(1, 2) else format.length
    solid = format.length * format.width * format.height * (1 - _share(frog_percent, "a frog"))
    joints = area * depth / _MM_IN_M - bricks * solid / _MM3_IN_M3
    return joints * (1 + _share(waste_percent, "waste", most=None))


def mortar_per_thousand(
    format: Format = UK_METRIC, *, thickness: Number = Fraction(1, 2), frog_percent: Number = 0
) -> Fraction:
    """Mortar in m³ for a thousand bricks, no waste."""
    area = 1000 / bricks_for_area(1, format, thickness=thickness)
    return mortar_volume(area, format, thickness=thickness, frog_percent=frog_percent)


def batch(
    volume_m3: Number,
    mix: str = "1:5",
    *,
    dry_factor: Number = 1,
    cement_density: Number = CEMENT_KG_M3,
    sand_density: Number = SAND_KG_M3,
    bag_kg: Number = 25,
) -> Batch:
    """The batch for a volume of mortar by a mix "cement:sand" or "cement:lime:sand" by volume.

    `dry_factor` is how much more dry material than wet mortar is needed (1.25 and 1.33 are both in use: a stated
    setting, 1 unless given). Bags are rounded up once, from the whole mass of cement.
    """
    cement, lime, sand = _parts(mix)
    dry = above_nothing(volume_m3, "a volume") * above_nothing(dry_factor, "a dry factor")
    part = dry / (cement + lime + sand)
    mass = part * cement * above_nothing(cement_density, "a density")
    return Batch(
        cement_m3=part * cement,
        lime_m3=part * lime,
        sand_m3=part * sand,
        cement_kg=mass,
        sand_kg=part * sand * above_nothing(sand_density, "a density"),
        bags=ceil(mass / above_nothing(bag_kg, "a bag")),
    )


def _parts(mix: str) -> tuple[Fraction, Fraction, Fraction]:
    try:
        parts = [number(text) for text in mix.split(":")]
    except (TradeError, AttributeError):
        parts = []
    if len(parts) not in (2, 3) or min(parts) <= 0:
        raise TradeError(f"{mix!r} is not a mix; write cement to sand as '1:5', or with lime as '1:1:6'")
    return (parts[0], Fraction(0), parts[1]) if len(parts) == 2 else (parts[0], parts[1], parts[2])


def _share(percent: Number, what: str, most: int | None = 100) -> Fraction:
    share = number(percent) / 100
    if share < 0 or (most is not None and share * 100 >= most):
        raise TradeError(
            f"{what} allowance of {number(percent)} % cannot be; use 0 or more" + (", under 100" if most else "")
        )
    return share
