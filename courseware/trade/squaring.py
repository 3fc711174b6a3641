"""Setting out square: diagonals and the 3-4-5 triangle."""

from __future__ import annotations

import math
from fractions import Fraction

from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number

_MILLION = 10**6


def diagonal(width: Exact, height: Exact) -> Fraction:
    """Diagonal in mm of a rectangle `width` by `height` mm, by Pythagoras.

    Exact where the root is rational. Otherwise within a millionth of a mm, by whole-number square root, and
    chosen so that rounding it later to five places or fewer gives what the true root rounds to: see
    `settled`. Raises `TradeError` unless both sides are above 0.

    >>> diagonal(900, 1200)
    Fraction(1500, 1)
    """
    across, up = number(width), number(height)
    if across <= 0 or up <= 0:
        raise TradeError(f"{size(across)} mm by {size(up)} mm has no diagonal to check: both sides must be above 0")
    square = across * across + up * up
    over, under = math.isqrt(square.numerator), math.isqrt(square.denominator)
    if over * over == square.numerator and under * under == square.denominator:
        return Fraction(over, under)
    halves_of_millionths = math.isqrt(4 * _MILLION**2 * square.numerator // square.denominator)
    return settled(halves_of_millionths)


def settled(halves_of_millionths: int) -> Fraction:
    """The millionths to keep of a figure that has no exact value, given twice them rounded down.

    Rounding twice goes wrong when the first rounding lands on the tie of the second: 2.4999998 kept as
    2.5 later becomes 3. Every tie of a rounding to five places or fewer is a multiple of five millionths. So the
    nearest millionth is kept, unless it is such a multiple: then its neighbour on the figure's own side is.
    What is kept then lies on the same side of every tie as the figure itself.
    """
    nearest = (halves_of_millionths + 1) // 2
    if nearest % 5 == 0:
        nearest += 1 if 2 * nearest <= halves_of_millionths else -1
    return Fraction(nearest, _MILLION)
