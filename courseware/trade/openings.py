"""How wide bricks come: openings, returned ends and piers set out in half bricks.

Technical Information Sheet 9, Table 1: with CO the co-ordinating size (bricks x module), an opening has a
joint at both ends (CO+), a wall returned at one end as many joints as bricks (CO), and a pier between
stopped ends one joint fewer (CO-). DIN 4172 has the same rule on its own module.
"""

from __future__ import annotations

import math
from fractions import Fraction

from courseware.trade.errors import TradeError, halves, in_bricks, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format

_HALF = Fraction(1, 2)


def opening(bricks: Exact, format: Format = UK_METRIC) -> Fraction:
    """Width in mm of an opening that takes `bricks`: a joint at both ends, one more than there are bricks.

    `bricks` is a positive multiple of 1/2; anything else raises `TradeError` with the nearest that can be
    set out. Source: Technical Information Sheet 9, Table 1, column CO+.

    >>> opening(4)
    Fraction(910, 1)
    """
    return half_bricks(bricks) * format.module + format.perpend


def returned(bricks: Exact, format: Format = UK_METRIC) -> Fraction:
    """Length in mm of `bricks` from a stopped end to a return: as many joints as bricks.

    Raises `TradeError` as `opening` does. Source: Technical Information Sheet 9, Table 1, column CO.

    >>> returned("3.5")
    Fraction(1575, 2)
    """
    return half_bricks(bricks) * format.module


def pier(bricks: Exact, format: Format = UK_METRIC) -> Fraction:
    """Length in mm of a pier of `bricks` between stopped ends: one joint fewer than there are bricks.

    Raises `TradeError` as `opening` does. Source: Technical Information Sheet 9, Table 1, column CO-.

    >>> pier(4)
    Fraction(890, 1)
    """
    return half_bricks(bricks) * format.module - format.perpend


def half_bricks(bricks: Exact) -> Fraction:
    """`bricks` as given, once it is sure that they go in halves; `TradeError` with the nearest if not."""
    exact = number(bricks)
    if exact.denominator > 2 or exact.numerator <= 0:
        raise _cannot_be_set_out(exact)
    return exact


def _cannot_be_set_out(bricks: Fraction) -> TradeError:
    asked = f"{size(bricks)} brick{'' if bricks == 1 else 's'} cannot be set out"
    if bricks < _HALF:
        return TradeError(f"{asked}: bricks go in halves, and the least is half a brick")
    below = Fraction(math.floor(bricks * 2), 2)
    return TradeError(f"{asked}: bricks go in halves; the nearest are {halves(below)} and {in_bricks(below + _HALF)}")
