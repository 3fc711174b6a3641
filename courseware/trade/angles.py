"""Angles in whole-number arithmetic: arc tangents, sines, cosines and roots far finer than any cut or sight line."""

from __future__ import annotations

import math
from fractions import Fraction

ONE = 10**48  # fixed point: whole numbers of 10**-48
_KEPT = 10**12  # of a figure given back


def arctan(up: int, along: int) -> int:
    """Radians in fixed point, by Euler's series: each term is the last times 2n/(2n + 1) times u²/(u² + a²)."""
    square, whole = up * up, up * up + along * along
    term = total = up * along * ONE // whole
    n = 1
    while term:
        term = term * 2 * n * square // ((2 * n + 1) * whole)
        total += term
        n += 1
    return total


PI = 16 * arctan(1, 5) - 4 * arctan(1, 239)  # Machin's formula


def exact_root(value: Fraction) -> Fraction | None:
    """The square root where it is rational, else None."""
    over, under = math.isqrt(value.numerator), math.isqrt(value.denominator)
    exact = over * over == value.numerator and under * under == value.denominator
    return Fraction(over, under) if exact else None


def root(value: Fraction) -> Fraction:
    """The square root: exact where it is rational, else to a millionth of a millionth."""
    exact = exact_root(value)
    return Fraction(math.isqrt(value.numerator * _KEPT**2 // value.denominator), _KEPT) if exact is None else exact


def sine_and_cosine(degrees: Fraction) -> tuple[Fraction, Fraction]:
    """Both, of an angle from 0 to 90 degrees, each to a millionth of a millionth.

    >>> [round(float(part), 6) for part in sine_and_cosine(Fraction(30))]
    [0.5, 0.866025]
    """
    return _kept(fine_sine(degrees)), _kept(_series(_radians(degrees), 0))


def fine_sine(degrees: Fraction) -> int:
    """The sine of an angle from 0 to 90 degrees in fixed point."""
    return _series(_radians(degrees), 1)


def _radians(degrees: Fraction) -> int:
    return degrees.numerator * PI // (180 * degrees.denominator)


def _kept(fine: int) -> Fraction:
    return Fraction(round(Fraction(fine * _KEPT, ONE)), _KEPT)


def _series(angle: int, power: int) -> int:
    """The sine (from power 1) or the cosine (from power 0): each term is the last times -a²/(n(n + 1))."""
    size, sign, total = angle if power else ONE, 1, 0
    while size:
        total += sign * size
        size = size * angle * angle // (ONE * ONE * (power + 1) * (power + 2))
        sign, power = -sign, power + 2
    return total
