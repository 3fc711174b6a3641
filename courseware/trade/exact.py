"""Exact numbers in, and the one error for what cannot be built."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import isqrt

Number = int | Fraction | Decimal | str | float

_MILLIONTH = 10**6


class TradeError(ValueError):
    """What was asked, why it cannot be built, and the nearest that can."""


def number(value: Number) -> Fraction:
    """`value` exactly; a float by its decimal text, so that 0.1 is one tenth.

    >>> number("1/2"), number(112.5)
    (Fraction(1, 2), Fraction(225, 2))

    """
    if type(value) is Fraction:
        return value
    if type(value) is int:
        return Fraction(value)
    try:
        if isinstance(value, bool) or not isinstance(value, int | Fraction | Decimal | str | float):
            raise TypeError
        return Fraction(str(value)) if isinstance(value, float) else Fraction(value)
    except (TypeError, ValueError, OverflowError, ZeroDivisionError):
        raise TradeError(f"{value!r} is not a number; give it as 3, 3.5, '3.5' or '7/2'") from None


def above_nothing(value: Number, what: str) -> Fraction:
    """`value` exactly, refused unless it is above 0; `what` names it in the message."""
    exact = number(value)
    if exact <= 0:
        raise TradeError(f"{what} of {plain(exact)} cannot be built; it must be more than 0")
    return exact


def root(square: Fraction) -> Fraction:
    """The square root: exact where it is rational, else to the nearest millionth.

    Rounding it again later is still right for the sizes of walls: a root that is not rational lies further from
    a half millimetre than that millionth, unless the wall is longer than 100 km.
    """
    above, below = isqrt(square.numerator), isqrt(square.denominator)
    if above * above == square.numerator and below * below == square.denominator:
        return Fraction(above, below)
    scaled = isqrt(4 * _MILLIONTH**2 * square.numerator // square.denominator)
    return Fraction((scaled + 1) // 2, _MILLIONTH)


def plain(value: Fraction) -> str:
    """A figure for a message: `910`, `112.5`, `12⅓` or to three places."""
    if value.denominator == 1:
        return str(value.numerator)
    if value.denominator == 3 and value > 0:
        return f"{int(value) or ''}{'⅓' if value % 1 == Fraction(1, 3) else '⅔'}"
    whole, parts = divmod(round(abs(value) * 1000), 1000)
    return f"{'-' if value < 0 else ''}{whole}.{parts:03d}".rstrip("0").rstrip(".")


def in_bricks(count: Fraction) -> str:
    """A count of bricks for a message: `3 bricks`, `3½ bricks`, `½ brick`."""
    whole, half = divmod(count, 1)
    text = (str(whole) if whole or not half else "") + ("½" if half else "")
    return f"{text} brick{'' if count <= 1 else 's'}"
