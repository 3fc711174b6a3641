"""Roots, angles and pi to a stated number of decimal places, halves upwards: from `angles`, far finer than asked."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import isqrt

from courseware.trade.angles import ONE, PI, exact_root, fine_sine
from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number

MOST_PLACES = 12


def root(x: Exact, places: Exact | None = None) -> Fraction:
    """The square root: exact where there is one, else to `places` decimal places.

    Raises `TradeError` below 0, and without `places` where the root has no end.

    >>> root("6.25"), root(2, 4)
    (Fraction(5, 2), Fraction(7071, 5000))
    """
    value = number(x)
    if value < 0:
        raise TradeError(f"there is no square root of {size(value)}: it is below 0")
    if (exact := exact_root(value)) is not None:
        return exact
    if places is None:
        raise TradeError(f"the square root of {size(value)} has no end: say to how many places, as root(x, 2)")
    scale = 10 ** _places(places)
    doubled = isqrt(4 * value.numerator * scale * scale // value.denominator)  # twice the root, cut off
    return Fraction((doubled + 1) // 2, scale)


def sine(degrees: Exact, places: Exact) -> Fraction:
    """The sine of an angle in degrees, to `places` decimal places. Raises `TradeError`."""
    return _rounded(_sine(number(degrees)), _places(places))


def cosine(degrees: Exact, places: Exact) -> Fraction:
    """The cosine of an angle in degrees, to `places` decimal places. Raises `TradeError`."""
    return _rounded(_sine(number(degrees) + 90), _places(places))


def tangent(degrees: Exact, places: Exact) -> Fraction:
    """The tangent of an angle in degrees, to `places` decimal places. Raises `TradeError`, at a right angle too."""
    angle = number(degrees)
    if (angle - 90) % 180 == 0:
        raise TradeError(f"there is no tangent of {size(angle)} degrees")
    return _rounded(_sine(angle) / _sine(angle + 90), _places(places))


def pi(places: Exact) -> Fraction:
    """Pi to `places` decimal places. Raises `TradeError`."""
    return _rounded(Fraction(PI, ONE), _places(places))


def _places(asked: Exact) -> int:
    places = number(asked)
    if places.denominator != 1 or not 0 <= places <= MOST_PLACES:
        raise TradeError(f"{size(places)} decimal places cannot be: expected 0 to {MOST_PLACES}")
    return int(places)


def _rounded(value: Fraction, places: int) -> Fraction:
    """To so many places, halves away from nothing, as calculators do."""
    scale = 10**places
    whole = (2 * abs(value) * scale + 1) // 2
    return Fraction(int(whole) if value >= 0 else -int(whole), scale)


@lru_cache(maxsize=4096)
def _sine(degrees: Fraction) -> Fraction:
    """The sine, exact at multiples of 30 degrees where it is a fraction, else to more places than are ever asked."""
    turn = degrees % 360
    sign = 1
    if turn >= 180:
        turn, sign = turn - 180, -1
    turn = min(turn, 180 - turn)  # 0 to 90
    if turn in _SINES:
        return sign * _SINES[turn]
    return Fraction(sign * fine_sine(turn), ONE)


_SINES = {Fraction(0): Fraction(0), Fraction(30): Fraction(1, 2), Fraction(90): Fraction(1)}
