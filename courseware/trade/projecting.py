"""Projecting courses: where a course stands to the eye, which arris to level, how far it may project."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from courseware.trade.exact import Number, TradeError, above_nothing, number, plain
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import height

ArrisRule = Literal["outline", "near"]

_DIGITS = 10**12  # working precision of an angle, in parts of a radian
_MILLIONTH = 10**6


@dataclass(frozen=True, slots=True)
class ProjectionLimit:
    """A named limit in mm on a projection: for one course, and in all (None where the source gives none)."""

    name: str
    per_course: Fraction
    total: Fraction | None
    source: str


def from_eye(course: Number, eye_height: Number, format: Format = UK_METRIC) -> Fraction:
    """Height in mm of the top of a course above (+) or below (-) the eye line, both from the same datum."""
    return height(course, format) - above_nothing(eye_height, "an eye height")


def arris_to_level(course_height: Number, eye_height: Number, rule: ArrisRule | str = "outline") -> str:
    """The arris to level through, "top" or "underside", of a course at `course_height` mm.

    The height compared is the one given: use the top of the course, the line a gauge rod marks. By the outline rule a
    course above the eye line is levelled on its top arris and one below on its underside; by the near rule the other
    way round. Centres differ (both are taught), so the rule is a setting. Raises `TradeError` on the eye line itself.
    """
    above = number(course_height) - number(eye_height)
    if rule not in ("outline", "near"):
        raise TradeError(f"no rule for the arris is called {rule}; use outline or near")
    if above == 0:
        raise TradeError(
            f"a course at {plain(number(course_height))} mm stands on the eye line itself, where neither arris shows "
            "more than the other; take a course above or below it"
        )
    return "top" if (above > 0) == (rule == "outline") else "underside"


def angle_of_sight(height_difference: Number, distance: Number) -> Fraction:
    """The angle in degrees, to a millionth, at which a height above or below the eye is seen from a distance."""
    ratio = number(height_difference) / above_nothing(distance, "a distance")
    degrees = _arctan(abs(ratio)) * 45 / _arctan_of_one()
    exact = Fraction((2 * degrees * _MILLIONTH + 1) // 2, _MILLIONTH)
    return exact if ratio >= 0 else -exact


def projection_limits(
    format: Format = UK_METRIC, *, wall: Number | None = None, bed_depth: Number | None = None
) -> Mapping[str, ProjectionLimit]:
    """The limits known, by name, for bricks of this format in a wall `wall` mm thick (half a brick unless given).

    `bed_depth` is the brick's bed measured through the wall (its width unless given). Sources differ, and a centre or
    a designer may set another: the figure is always a named setting.
    """
    thickness = format.width if wall is None else above_nothing(wall, "a wall's thickness")
    depth = format.width if bed_depth is None else above_nothing(bed_depth, "a bed's depth")
    return {
        "UK corbel": ProjectionLimit("UK corbel", Fraction(56), thickness, "a livery company's glossary"),
        "UK oversailing": ProjectionLimit("UK oversailing", Fraction(30), None, "a livery company's glossary"),
        "US": ProjectionLimit(
            "US",
            min(format.height / 2, depth / 3),
            None,
            "US rule: half the unit's height, a third of its bed",
        ),
        "Ontario": ProjectionLimit(
            "Ontario", Fraction(25), thickness / 3, "Ontario rule: 25 mm a unit, a third of the wall in all"
        ),
    }


PROJECTION_LIMITS: Mapping[str, ProjectionLimit] = projection_limits()


def check_projection(projection: Number, limit: ProjectionLimit, courses: Number = 1) -> Fraction:
    """`projection` in mm of `courses` courses, refused with the most that may be built past the limit."""
    exact, count = above_nothing(projection, "a projection"), above_nothing(courses, "a number of courses")
    most = limit.per_course * count if limit.total is None else min(limit.per_course * count, limit.total)
    if exact > most:
        raise TradeError(
            f"a projection of {plain(exact)} mm is past the {limit.name} limit; the most here is {plain(most)} mm "
            f"({limit.source}; check local codes)"
        )
    return exact


def _arctan(ratio: Fraction) -> Fraction:
    """Arctangent in parts of `_DIGITS` of a radian, the argument brought to a half or less first."""
    if ratio > 1:
        return 2 * _arctan_of_one() - _arctan(1 / ratio)
    shift = Fraction(0)
    if ratio > Fraction(1, 2):  # arctan x = arctan 1/2 + arctan (2x - 1)/(2 + x)
        shift, ratio = _series(Fraction(1, 2)), (2 * ratio - 1) / (2 + ratio)
    return shift + _series(ratio)


def _arctan_of_one() -> Fraction:
    """A quarter of π, by Machin: 4 arctan 1/5 - arctan 1/239."""
    return 4 * _series(Fraction(1, 5)) - _series(Fraction(1, 239))


def _series(ratio: Fraction) -> Fraction:
    scale = _DIGITS * 10**6
    x = ratio.numerator * scale // ratio.denominator
    square, power, total, odd = x * x // scale, x, 0, 1
    while power:
        total += power // odd if odd % 4 == 1 else -(power // odd)
        power, odd = power * square // scale, odd + 2
    return Fraction(total, 10**6)
