"""Basket weave: bays of three stretchers against bays of three soldiers, each bay one module square.

Common practice, no source: the weave closes when three courses make one module, for then three bricks lying down are
as high, with their beds, as one standing on end, with its joint.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courseware.trade.errors import TradeError, in_courses, size
from courseware.trade.exact import Exact, whole
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import whole_courses

STRETCHER, SOLDIER = "stretcher", "soldier"
_BAY = 3  # bricks to a bay, and courses


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A brick's face in its place, in mm from the panel's lower left corner: the brick alone, without its joints."""

    kind: str
    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Weave:
    """A basket-weave panel: its bays and bricks counted, every brick placed, its size brick edge to brick edge."""

    bays: int
    stretchers: int
    soldiers: int
    bricks: tuple[Placed, ...]
    width: Fraction
    height: Fraction


def weave_closes(format: Format = UK_METRIC) -> bool:
    """Whether three courses make one module, so that the bays of a basket weave fit.

    >>> from courseware.trade.formats import AUSTRALIAN
    >>> weave_closes(), weave_closes(AUSTRALIAN)
    (True, False)
    """
    return _BAY * format.course == format.module


def basket_weave(bricks: Exact, courses: Exact, format: Format = UK_METRIC, starts: str = STRETCHER) -> Weave:
    """A panel `bricks` wide and `courses` high; the lower left bay is of stretchers unless it `starts` with soldiers.

    Stretchers lie a course apart, soldiers stand a third of a module apart; a joint is what a brick leaves of its
    place. Raises `TradeError` where the weave does not close in this format, and for anything but whole bricks and
    courses in threes, with the nearest that can be built.

    >>> panel = basket_weave(3, 12)
    >>> panel.bays, panel.stretchers, panel.soldiers
    (12, 18, 18)
    """
    wide, high = whole(bricks, what="a basket weave goes in whole bricks"), whole_courses(courses)
    if starts not in (STRETCHER, SOLDIER):
        raise TradeError(f"a bay of {starts!r} is not known: a weave starts with a stretcher or a soldier bay")
    check_closes(format)
    if wide < 1:
        raise TradeError(f"a panel {wide} bricks wide cannot be woven: the least is 1 brick")
    if high % _BAY:
        below, above = high - high % _BAY, high + _BAY - high % _BAY
        nearest = f"{below} and {in_courses(above)}" if below else in_courses(above)
        raise TradeError(
            f"a basket weave of {in_courses(high)} does not close: courses go in threes; nearest: {nearest}"
        )
    return _woven(wide, high, format, starts)


@lru_cache(maxsize=32)  # its bays, its bricks and its size are asked for one after another
def _woven(wide: int, high: int, format: Format, starts: str) -> Weave:
    placed = tuple(_bays(wide, high // _BAY, format, starts))
    stretchers = sum(1 for brick in placed if brick.kind == STRETCHER)
    return Weave(
        bays=wide * high // _BAY,
        stretchers=stretchers,
        soldiers=len(placed) - stretchers,
        bricks=placed,
        width=max(brick.right for brick in placed),
        height=max(brick.top for brick in placed),
    )


def check_closes(format: Format) -> None:
    """Raises `TradeError` where three courses do not make a module, saying what they make."""
    if weave_closes(format):
        return
    most = format.module / format.course
    instead = f"; {in_courses(int(most))} would" if most.denominator == 1 else ""
    raise TradeError(
        f"three bricks against one do not close in {format.name}: three courses are {size(_BAY * format.course)} mm, "
        f"a brick and its joint {size(format.module)} mm{instead}; it closes in UK metric, where three courses are "
        f"225 mm"
    )


def _bays(wide: int, high: int, format: Format, starts: str) -> Iterator[Placed]:
    """Bay by bay from the lower left, along and then up."""
    other = STRETCHER if starts == SOLDIER else SOLDIER
    for up in range(high):
        for along in range(wide):
            kind = starts if (up + along) % 2 == 0 else other
            left, bottom = along * format.module, up * format.module
            for n in range(_BAY):
                if kind == STRETCHER:
                    yield _brick(kind, left, bottom + n * format.course, format.length, format.height)
                else:
                    yield _brick(kind, left + n * format.module / _BAY, bottom, format.height, format.length)


def _brick(kind: str, left: Fraction, bottom: Fraction, wide: Fraction, high: Fraction) -> Placed:
    return Placed(kind=kind, left=left, bottom=bottom, right=left + wide, top=bottom + high)
