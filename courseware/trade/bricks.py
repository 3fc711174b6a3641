"""Bricks by area, and an order rounded up once to whole packs."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil
from typing import Literal

from courseware.trade.exact import Number, TradeError, above_nothing, number, plain
from courseware.trade.formats import UK_METRIC, Format

_SITE_RATE = Fraction(60)  # bricks a m² of half-brick wall: the UK site rule (trade-facts section 5)
_MM2_IN_M2 = 10**6
_MM_IN_M = 1000
Rate = Literal["exact", "site"]


def wall_area_m2(length: Number, height: Number, openings: Iterable[tuple[Number, Number]] = ()) -> Fraction:
    """Net area in m² of a wall, from mm, its openings (width, height) deducted.

    Raises `TradeError` for an opening that does not go into the wall, or openings that leave nothing.
    """
    long, high = above_nothing(length, "a wall length"), above_nothing(height, "a wall height")
    net = long * high
    for opening in openings:
        width, rise = (above_nothing(size, "an opening") for size in opening)
        if width > long or rise > high:
            raise TradeError(
                f"an opening of {plain(width)} × {plain(rise)} mm does not go into a wall of {plain(long)} × {plain(high)} mm"
            )
        net -= width * rise
    if net <= 0:
        raise TradeError("the openings leave no wall; their areas must add up to less than the wall's")
    return net / _MM2_IN_M2


def bricks_for_area(
    area_m2: Number,
    format: Format = UK_METRIC,
    *,
    rate: Rate | str = "exact",
    thickness: Number = Fraction(1, 2),
) -> Fraction:
    """Bricks in an area, exactly and not rounded, for a wall `thickness` bricks thick (1/2 or 1).

    "exact" is one brick to its coordinating face; "site" is the UK rule of 60 a m² (120 in a one-brick wall), which is
    1.25 % high. Raises `TradeError` for another thickness, or the site rate with another format.
    """
    area, leaves = above_nothing(area_m2, "an area"), _leaves(thickness)
    if rate == "site":
        if format != UK_METRIC:
            raise TradeError(f"the site rate of 60 is for UK metric bricks, not {format.name}; use the exact rate")
        return area * _SITE_RATE * leaves
    if rate != "exact":
        raise TradeError(f"no rate is called {rate}; use exact or site")
    return area * _MM2_IN_M2 / (format.module * format.course) * leaves


def order(quantity: Number, waste_percent: Number = 0, pack: Number = 1) -> int:
    """Whole packs for a quantity with its waste, rounded up once at the end: 2 m² × 60 and 5 % is 126 bricks."""
    exact, waste = number(quantity), number(waste_percent)
    if exact < 0 or waste < 0:
        raise TradeError("a quantity and its waste cannot be less than nothing")
    return ceil(exact * (1 + waste / 100) / above_nothing(pack, "a pack"))


def _leaves(thickness: Number) -> int:
    leaves = number(thickness) * 2
    if leaves not in (1, 2):
        raise TradeError(f"a wall {plain(number(thickness))} bricks thick is not known here; use 1/2 or 1")
    return int(leaves)
