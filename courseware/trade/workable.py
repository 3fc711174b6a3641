"""Sizes that bricks can make: which of them lie either side of a size, and how many bricks one takes."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from courseware.trade.errors import TradeError, in_bricks, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.openings import opening, pier, returned

_HALF = Fraction(1, 2)
_SetOut = Callable[[Fraction, Format], Fraction]


def workable_openings(width: Exact, format: Format = UK_METRIC) -> tuple[Fraction, Fraction]:
    """The largest workable opening not above `width` and the smallest not below it, in mm: twice the same
    where `width` works. Raises `TradeError` below the smallest opening, half a brick and two joints.

    >>> [str(mm) for mm in workable_openings(900)]
    ['1595/2', '910']
    """
    return _either_side(number(width), format.perpend, format, "an opening", opening)


def workable_returned(length: Exact, format: Format = UK_METRIC) -> tuple[Fraction, Fraction]:
    """The workable lengths, in mm, either side of a wall returned at one end; as `workable_openings`."""
    return _either_side(number(length), Fraction(0), format, "a returned end", returned)


def workable_piers(length: Exact, format: Format = UK_METRIC) -> tuple[Fraction, Fraction]:
    """The workable lengths, in mm, either side of a pier between stopped ends; as `workable_openings`."""
    return _either_side(number(length), -format.perpend, format, "a pier", pier)


def bricks_in_opening(width: Exact, format: Format = UK_METRIC) -> Fraction:
    """Bricks across an opening `width` mm wide, in halves; `TradeError` with the workable sizes if none fit.

    >>> bricks_in_opening(910)
    Fraction(4, 1)
    """
    return _bricks_in(number(width), format.perpend, format, "an opening", opening)


def bricks_in_returned(length: Exact, format: Format = UK_METRIC) -> Fraction:
    """Bricks in a wall `length` mm long, returned at one end; as `bricks_in_opening`."""
    return _bricks_in(number(length), Fraction(0), format, "a returned end", returned)


def bricks_in_pier(length: Exact, format: Format = UK_METRIC) -> Fraction:
    """Bricks in a pier `length` mm long between stopped ends; as `bricks_in_opening`."""
    return _bricks_in(number(length), -format.perpend, format, "a pier", pier)


def is_workable_opening(width: Exact, format: Format = UK_METRIC) -> bool:
    """Whether an opening `width` mm wide takes half bricks without a cut."""
    count = (number(width) - format.perpend) / format.half
    return count.denominator == 1 and count.numerator > 0


def _either_side(
    length: Fraction, joints: Fraction, format: Format, what: str, set_out: _SetOut
) -> tuple[Fraction, Fraction]:
    count = (length - joints) / format.half
    below = count.numerator // count.denominator
    if below < 1:
        raise TradeError(
            f"{what} of {size(length)} mm cannot be built: the smallest is {size(set_out(_HALF, format))} mm, "
            "half a brick"
        )
    low = below * format.half + joints
    return low, low if count.denominator == 1 else low + format.half


def _bricks_in(length: Fraction, joints: Fraction, format: Format, what: str, set_out: _SetOut) -> Fraction:
    bricks = (length - joints) / format.module
    if bricks.denominator <= 2 and bricks.numerator > 0:
        return bricks
    low, high = _either_side(length, joints, format, what, set_out)
    fewer = (low - joints) / format.module
    raise TradeError(
        f"{what} of {size(length)} mm does not work to half bricks: the nearest are {size(low)} mm "
        f"({in_bricks(fewer)}) and {size(high)} mm ({in_bricks(fewer + _HALF)})"
    )
