"""Setting out in half bricks: openings, returned lengths and piers, and what fits either side of a size that does not.

Source of the rule: Technical Information Sheet 9, Table 1: an opening has a joint more than its bricks' modules, a
pier one less, a length returned at one end neither.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from courseware.trade.exact import Number, TradeError, above_nothing, in_bricks, number, plain, root
from courseware.trade.formats import UK_METRIC, Format

_HALF = Fraction(1, 2)


def opening(bricks: Number, format: Format = UK_METRIC) -> Fraction:
    """Width in mm of an opening `bricks` wide, brick to brick (CO+). Raises `TradeError` unless in half bricks.

    >>> opening(4)
    Fraction(910, 1)

    """
    return _half_bricks(bricks) * format.module + format.perpend


def returned(bricks: Number, format: Format = UK_METRIC) -> Fraction:
    """Length in mm from a stopped end to a return (CO). Raises `TradeError` unless in half bricks."""
    return _half_bricks(bricks) * format.module


def pier(bricks: Number, format: Format = UK_METRIC) -> Fraction:
    """Length in mm between two stopped ends (CO-). Raises `TradeError` unless in half bricks."""
    return _half_bricks(bricks) * format.module - format.perpend


def workable_openings(width: Number, format: Format = UK_METRIC) -> tuple[Fraction, Fraction]:
    """The workable openings (largest not above `width`, smallest not below it), in mm.

    Raises `TradeError` below the opening half a brick wide.
    """
    return _either_side(number(width), format, format.perpend, "an opening")


def workable_returned(length: Number, format: Format = UK_METRIC) -> tuple[Fraction, Fraction]:
    """The workable returned lengths either side of `length`, likewise."""
    return _either_side(number(length), format, Fraction(0), "a returned length")


def workable_piers(length: Number, format: Format = UK_METRIC) -> tuple[Fraction, Fraction]:
    """The workable piers either side of `length`, likewise."""
    return _either_side(number(length), format, -format.perpend, "a pier")


def is_workable_opening(width: Number, format: Format = UK_METRIC) -> bool:
    """Whether an opening of this width takes half bricks without cutting."""
    halves = (number(width) - format.perpend) / format.half
    return halves > 0 and halves.denominator == 1


def bricks_in_opening(width: Number, format: Format = UK_METRIC) -> Fraction:
    """How many bricks wide an opening is. Raises `TradeError` with the workable sizes either side."""
    return _count(number(width), format, format.perpend, "an opening")


def bricks_in_returned(length: Number, format: Format = UK_METRIC) -> Fraction:
    """How many bricks long a returned length is, likewise."""
    return _count(number(length), format, Fraction(0), "a returned length")


def bricks_in_pier(length: Number, format: Format = UK_METRIC) -> Fraction:
    """How many bricks long a pier is, likewise."""
    return _count(number(length), format, -format.perpend, "a pier")


def diagonal(width: Number, height: Number) -> Fraction:
    """The diagonal of a square-cornered opening in mm: exact where it can be, else to a millionth of a mm."""
    return root(above_nothing(width, "a width") ** 2 + above_nothing(height, "a height") ** 2)


def three_four_five(unit: Number) -> tuple[Fraction, Fraction, Fraction]:
    """Two sides and the diagonal of a square corner, in the unit given: 300 gives 900, 1200, 1500."""
    size = above_nothing(unit, "a unit")
    return 3 * size, 4 * size, 5 * size


def queen_closer(format: Format = UK_METRIC) -> Fraction:
    """Face width in mm of a queen closer: half a header once the joint is taken out."""
    return (format.width - format.perpend) / 2


def segmental_radius(span: Number, rise: Number) -> Fraction:
    """Radius in mm of a segmental arch, (s²/4 + r²) / 2r. Raises `TradeError` for a rise above half the span."""
    s, r = above_nothing(span, "a span"), above_nothing(rise, "a rise")
    if 2 * r > s:
        raise TradeError(f"a rise of {plain(r)} is more than half the span; the most is {plain(s / 2)}")
    return (s * s / 4 + r * r) / (2 * r)


def _half_bricks(bricks: Number) -> Fraction:
    count = number(bricks)
    if count > 0 and count.denominator <= 2:
        return count
    if count <= 0:
        raise TradeError(f"{plain(count)} bricks cannot be set out; the least is ½ brick")
    below, above = floor(count * 2) * _HALF, ceil(count * 2) * _HALF
    nearest = f"{in_bricks(below)} and {in_bricks(above)}" if below else in_bricks(above)
    raise TradeError(f"{plain(count)} bricks cannot be set out: bricks go in halves; the nearest are {nearest}")


def _either_side(size: Fraction, format: Format, extra: Fraction, what: str) -> tuple[Fraction, Fraction]:
    halves = (size - extra) / format.half
    if halves < 1:
        raise TradeError(
            f"{what} of {plain(size)} mm is too small to build; the least is {plain(format.half + extra)} mm"
        )
    return floor(halves) * format.half + extra, ceil(halves) * format.half + extra


def _count(size: Fraction, format: Format, extra: Fraction, what: str) -> Fraction:
    below, above = _either_side(size, format, extra, what)
    if below != above:
        raise TradeError(
            f"{what} of {plain(size)} mm does not work in half bricks; "
            f"the nearest that do are {plain(below)} and {plain(above)} mm"
        )
    return (size - extra) / format.module
