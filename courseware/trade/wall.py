"""The wall as a whole: how thick it is and what area of it is brickwork."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.openings import half_bricks

_SQUARE_METRE = 1_000_000  # mm²


def wall_thickness(bricks: Exact = "1/2", format: Format = UK_METRIC) -> Fraction:
    """Thickness in mm of a wall of `bricks`: half a brick is a brick's width, one brick its length.

    Thicker walls add a joint between: 1½ bricks is a length, a joint and a width. Raises `TradeError` unless
    the bricks go in halves.

    >>> [str(wall_thickness(bricks)) for bricks in ("1/2", 1, "3/2")]
    ['205/2', '215', '655/2']
    """
    exact = half_bricks(bricks)
    if exact.denominator == 1:
        return exact * format.module - format.perpend
    return (exact - Fraction(1, 2)) * format.module + format.width


def wall_area_m2(length: Exact, height: Exact, openings: Iterable[tuple[Exact, Exact]] = ()) -> Fraction:
    """Net area in m² of a wall of `length` by `height` mm, less its openings (width, height) in mm.

    Raises `TradeError` when a size is not above 0, when an opening is longer or higher than the wall, or when
    the openings together leave no wall.

    >>> wall_area_m2(3000, 2000, [(1000, 500)])
    Fraction(11, 2)
    """
    long, high = number(length), number(height)
    if long <= 0 or high <= 0:
        raise TradeError(f"a wall {size(long)} mm by {size(high)} mm cannot be built: both must be above 0")
    net = long * high
    for width, rise in openings:
        net -= _opening_area(number(width), number(rise), long, high)
    if net <= 0:
        raise TradeError(
            f"the openings together leave nothing of a wall {size(long)} mm by {size(high)} mm: "
            "take fewer or smaller openings"
        )
    return net / _SQUARE_METRE


def _opening_area(width: Fraction, rise: Fraction, long: Fraction, high: Fraction) -> Fraction:
    asked = f"an opening {size(width)} mm by {size(rise)} mm"
    if width <= 0 or rise <= 0:
        raise TradeError(f"{asked} cannot be built: both must be above 0")
    if width > long or rise > high:
        raise TradeError(f"{asked} is larger than its wall, {size(long)} mm by {size(high)} mm")
    return width * rise
