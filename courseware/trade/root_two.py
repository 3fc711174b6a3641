"""Whole-number arithmetic with the root of two: a number a + b√2 is the pair (a, b), reckoned with exactly.

What is laid at 45 degrees and cut level or plumb has no other lengths and areas than these.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TypeAlias

from courseware.trade.angles import root

Surd: TypeAlias = tuple[int, int]
"""a + b√2, as (a, b)."""

ROOT_2 = root(Fraction(2))
"""To a millionth of a millionth."""


def sign(value: Surd) -> int:
    """1, 0 or -1: above, at or below nought. No rational is √2, so a and b of unlike signs never come to nought.

    >>> sign((3, -2)), sign((2, -2)), sign((0, 0))
    (1, -1, 0)
    """
    a, b = value
    if a >= 0 and b >= 0:
        return 1 if a or b else 0
    if a <= 0 and b <= 0:
        return -1
    larger = a if a * a > 2 * b * b else b
    return 1 if larger > 0 else -1


def less(one: Surd, other: Surd) -> Surd:
    """The first less the second."""
    return one[0] - other[0], one[1] - other[1]


def times(one: Surd, other: Surd) -> Surd:
    """The product.

    >>> times((1, 1), (1, -1))
    (-1, 0)
    """
    return one[0] * other[0] + 2 * one[1] * other[1], one[0] * other[1] + one[1] * other[0]


def in_figures(value: Surd, parts: int = 1) -> Fraction:
    """The number, divided by `parts`: exact where there is no √2 in it, else with √2 to a millionth of a millionth."""
    return (value[0] + value[1] * ROOT_2 if value[1] else Fraction(value[0])) / parts
