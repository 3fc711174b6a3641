"""A height brought to whole courses by thicker or thinner beds."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from courseware.trade.errors import TradeError, in_courses, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import whole_courses


@dataclass(frozen=True, slots=True)
class Regauge:
    """Whole courses that make a height: how many, the gauge of each and the bed in it, in mm."""

    courses: int
    gauge: Fraction
    bed: Fraction


def regauge(
    height: Exact,
    format: Format = UK_METRIC,
    courses: Exact | None = None,
    *,
    least_bed: Exact | None = None,
    most_bed: Exact | None = None,
) -> Regauge:
    """The gauge and bed, in mm, that bring `height` to whole courses, from the brick below to the last top.

    The courses are the nearest whole number to height / course unless given. Exactly half way, one course
    more is taken rather than one fewer: its bed differs less from the format's own. Raises `TradeError`
    when no bed would be left, when the bed would be as thick as the brick or thicker (another course would
    go in), or when it lies outside `least_bed` and `most_bed`; each says what can be built instead.

    >>> regauge(1000)
    Regauge(courses=13, gauge=Fraction(1000, 13), bed=Fraction(155, 13))
    """
    mm = number(height)
    if mm <= 0:
        raise TradeError(f"a height of {size(mm)} mm takes no courses: give a height above 0")
    count = _nearest_courses(mm, format) if courses is None else whole_courses(courses)
    gauge = mm / count
    bed = gauge - format.height
    if not 0 < bed < format.height:
        raise _no_bed(mm, count, bed, format)
    if least_bed is not None and bed < (least := number(least_bed)):
        raise TradeError(
            f"{_asked(mm, count)} would need beds of {size(bed)} mm, thinner than the least, {size(least)} mm: "
            "take fewer courses or more height"
        )
    if most_bed is not None and bed > (most := number(most_bed)):
        raise TradeError(
            f"{_asked(mm, count)} would need beds of {size(bed)} mm, thicker than the most, {size(most)} mm: "
            "take more courses or less height"
        )
    return Regauge(count, gauge, bed)


def _nearest_courses(mm: Fraction, format: Format) -> int:
    return max(1, math.floor(mm / format.course + Fraction(1, 2)))


def _asked(mm: Fraction, courses: int) -> str:
    return f"{size(mm)} mm in {in_courses(courses)}"


def _no_bed(mm: Fraction, courses: int, bed: Fraction, format: Format) -> TradeError:
    if bed > 0:
        fewest = math.floor(mm / (2 * format.height)) + 1
        return TradeError(
            f"{_asked(mm, courses)} would need beds of {size(bed)} mm, as thick as the brick or thicker: "
            f"it takes {in_courses(fewest)} at least"
        )
    most = math.ceil(mm / format.height) - 1
    if most < 1:
        return TradeError(
            f"{_asked(mm, courses)} leaves no room for a bed: one brick alone is {size(format.height)} mm high"
        )
    return TradeError(
        f"{_asked(mm, courses)} leaves no room for a bed: the bricks alone are {size(courses * format.height)} mm; "
        f"it takes {in_courses(most)} at most"
    )
