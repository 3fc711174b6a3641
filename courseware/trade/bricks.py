"""How many bricks: by the area of the face, exactly or at the site rate, and the packs to order."""

from __future__ import annotations

import math
from fractions import Fraction

from courseware.trade.errors import TradeError, in_bricks, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.openings import half_bricks

SITE_RATE = 60  # bricks a m² of half-brick UK metric wall; 120 for one-brick walls. Site practice: 1.25 % high
_SQUARE_METRE = 1_000_000  # mm²


def bricks_for_area(
    area_m2: Exact,
    format: Format = UK_METRIC,
    *,
    rate: str = "exact",
    thickness: Exact = "1/2",
) -> Fraction:
    """Bricks in `area_m2` of wall, exact and not rounded: `order` rounds up, once, at the end.

    The "exact" rate is one brick to a module by a course of face for each half brick of `thickness`; the "site"
    rate is 60 a m² for half-brick and 120 for one-brick walls, UK metric only. Raises `TradeError` for another
    rate, an area not above 0, and a site rate where the trade has none.

    >>> bricks_for_area(2, rate="site"), bricks_for_area("8.1")
    (Fraction(120, 1), Fraction(480, 1))
    """
    area = area_above_0(area_m2)
    bricks_thick = half_bricks(thickness)
    if rate == "exact":
        return area * (2 * _SQUARE_METRE) * bricks_thick / (format.module * format.course)
    if rate != "site":
        raise TradeError(f"no rate is called {rate!r}: use exact or site")
    return area * _site_rate(format, bricks_thick)


def order(quantity: Exact, waste_percent: Exact = 0, pack: Exact = 1) -> int:
    """Whole packs of `pack` that cover `quantity` and its waste, rounded up once.

    Raises `TradeError` when the quantity or pack is not above 0, or the waste is below 0.

    >>> order(2 * 60, waste_percent=5), order("774.27", waste_percent=5), order(1260, pack=400)
    (126, 813, 4)
    """
    wanted, each = number(quantity), number(pack)
    if wanted <= 0:
        raise TradeError(f"a quantity of {size(wanted)} is nothing to order: it must be above 0")
    if each <= 0:
        raise TradeError(f"a pack of {size(each)} cannot be ordered: it must hold more than 0")
    return math.ceil(wanted * allowance(waste_percent, "waste") / each)


def area_above_0(area_m2: Exact) -> Fraction:
    """The area in m², exact; `TradeError` unless it is above 0."""
    area = number(area_m2)
    if area <= 0:
        raise TradeError(f"an area of {size(area)} m² takes no bricks: it must be above 0")
    return area


def allowance(percent: Exact, what: str) -> Fraction:
    """What to multiply by to allow `percent` more: 5 gives 21/20. `TradeError` below 0; `what` names it."""
    exact = number(percent)
    if exact < 0:
        raise TradeError(f"{what} of {size(exact)} per cent cannot be allowed: it must be 0 or more")
    return 1 + exact / 100


def _site_rate(format: Format, thickness: Fraction) -> Fraction:
    if (format.module, format.course) != (UK_METRIC.module, UK_METRIC.course):
        raise TradeError(f"there is no site rate for {format.name} bricks, only for UK metric: use the exact rate")
    if thickness > 1:
        raise TradeError(
            f"there is no site rate for a wall of {in_bricks(thickness)}, only for half-brick and one-brick walls: "
            "use the exact rate"
        )
    return 2 * SITE_RATE * thickness
