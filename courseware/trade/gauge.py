"""Gauge: heights of courses from three datums, whole courses in a height, and a height regauged to whole courses.

With a 10 mm bed, c courses measure 75c from the top of the brick below to the top of the last brick (height), 75c - 10
on the face of the bricks alone (face height) and 75c + 10 clear between the brick below and the brick above (clear
height): the three datums are never mixed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from courseware.trade.exact import Number, TradeError, above_nothing, number, plain
from courseware.trade.formats import UK_METRIC, Format

Datum = Literal["height", "face", "clear"]


@dataclass(frozen=True, slots=True)
class Regauge:
    """A height regauged: whole `courses`, the `gauge` and the `bed` that give it, in mm."""

    courses: int
    gauge: Fraction
    bed: Fraction


def height(courses: Number, format: Format = UK_METRIC) -> Fraction:
    """Height in mm from the top of the brick below to the top of the last course: four UK courses are 300."""
    return _whole(courses) * format.course


def face_height(courses: Number, format: Format = UK_METRIC) -> Fraction:
    """Height in mm on the face of the bricks alone, first bed left out."""
    return _whole(courses) * format.course - format.bed


def clear_height(courses: Number, format: Format = UK_METRIC) -> Fraction:
    """Clear height in mm between the brick below and the brick above, a bed at both ends."""
    return _whole(courses) * format.course + format.bed


def courses_in(size: Number, format: Format = UK_METRIC, datum: Datum | str = "height") -> int:
    """Whole courses in a height from this datum. Raises `TradeError` with the heights either side."""
    extra = {"height": Fraction(0), "face": -format.bed, "clear": format.bed}.get(datum)
    if extra is None:
        raise TradeError(f"no datum is called {datum}; use height, face or clear")
    exact = number(size)
    courses = (exact - extra) / format.course
    if courses.denominator == 1 and courses > 0:
        return int(courses)
    lower = [plain(floor(courses) * format.course + extra)] if courses >= 1 else []
    upper = plain(max(ceil(courses), 1) * format.course + extra)
    nearest = f"the nearest are {lower[0]} and {upper}" if lower else f"the least is {upper}"
    raise TradeError(f"{plain(exact)} mm is not a whole number of courses; {nearest} mm")


def courses_to_reach(size: Number, format: Format = UK_METRIC) -> int:
    """Whole courses needed to reach a height: 1350 mm at a 75 mm gauge is exactly 18."""
    return ceil(above_nothing(size, "a height") / format.course)


def regauge(size: Number, format: Format = UK_METRIC, courses: Number | None = None) -> Regauge:
    """The gauge and bed that bring a height to whole courses: the nearest number of courses unless given.

    Half way between, the fewer courses are taken, since a bed may be thickened more readily than squeezed below
    the sand's largest grain (common practice, no source). Raises `TradeError` where no bed would be left.
    """
    exact = above_nothing(size, "a height")
    count = max(1, ceil(exact / format.course - Fraction(1, 2))) if courses is None else _whole(courses)
    gauge = exact / count
    bed = gauge - format.height
    if bed <= 0:
        most = floor(exact / format.height)
        if most * format.height == exact:
            most -= 1
        nearest = f"the most is {most}" if most > 0 else "the height is less than a brick and a bed"
        raise TradeError(
            f"{count} courses of {plain(format.height)} mm brick in {plain(exact)} mm leave no bed; {nearest}"
        )
    return Regauge(courses=count, gauge=gauge, bed=bed)


def gauge_rod(courses: Number, format: Format = UK_METRIC) -> tuple[Fraction, ...]:
    """The marks of a gauge rod in mm: the top of each course above the top of the brick below."""
    return tuple(mark * format.course for mark in range(1, _whole(courses) + 1))


def _whole(courses: Number) -> int:
    count = number(courses)
    if count.denominator == 1 and count > 0:
        return count.numerator
    if count <= 0:
        raise TradeError(f"{plain(count)} courses cannot be laid; the least is 1")
    near = f"{floor(count)} and {ceil(count)}" if count > 1 else "1"
    raise TradeError(f"{plain(count)} courses cannot be laid: courses are whole; the nearest are {near}")
