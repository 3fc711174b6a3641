"""An opening as it is measured on site: the openings nearest to it that take a surround and a woven panel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from courseware.trade import Format, TradeError, basket_weave, clear_height, opening, surround

_MOST_BRICKS, _MOST_COURSES = 40, 60  # as a job may have


@dataclass(frozen=True, slots=True, kw_only=True)
class NearSize:
    """So many bricks or courses, their size in mm, and how much more that is than what was measured."""

    count: int
    size: Fraction
    more: Fraction


def widths_near(width: Fraction, brick: Format) -> tuple[NearSize, ...]:
    """Whole bricks whose opening is the largest not above a width in mm, and the smallest not below it."""
    return _around(width, [(n, opening(n, brick)) for n in range(2, _MOST_BRICKS + 1) if _builds(n, 6, brick)])


def heights_near(height: Fraction, brick: Format) -> tuple[NearSize, ...]:
    """Courses whose clear height is the largest not above a height in mm, and the smallest not below it."""
    return _around(height, [(n, clear_height(n, brick)) for n in range(4, _MOST_COURSES + 1) if _builds(2, n, brick)])


def _builds(bricks: int, courses: int, brick: Format) -> bool:
    try:
        built = surround(bricks, courses, brick)
        basket_weave(built.panel_bricks, built.panel_courses, brick)
    except TradeError:
        return False
    return True


def _around(size: Fraction, built: Sequence[tuple[int, Fraction]]) -> tuple[NearSize, ...]:
    below = [one for one in built if one[1] <= size][-1:]
    above = [one for one in built if one[1] >= size][:1]
    return tuple(NearSize(count=n, size=mm, more=mm - size) for n, mm in dict.fromkeys((*below, *above)))
