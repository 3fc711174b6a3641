"""How far a course may stand out: limits on a projection, each a named setting with its source.

Limits differ between authorities, so a question or a centre names the one it works to.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import TypeAlias

from courseware.trade.errors import TradeError, in_courses, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import whole_courses
from courseware.trade.wall import wall_thickness

Reach: TypeAlias = Callable[..., Fraction]
"""How far out, in mm, for a format and a wall's thickness in bricks (half a brick unless given)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectionLimit:
    """A limit on projecting courses: how far each may stand beyond the one below, and how far all together.

    A reach in all that the source does not state raises `TradeError` when it is asked for.
    """

    name: str
    per_course: Reach
    total: Reach
    source: str


def check_projection(
    projection: Exact,
    format: Format = UK_METRIC,
    *,
    limit: str = "uk_corbel",
    courses: Exact = 1,
    thickness: Exact = "1/2",
) -> Fraction:
    """How far `courses` of this projection each stand out together, in mm, once they keep within the limit.

    Raises `TradeError` when a course or all of them stand out too far, saying the most that is allowed.

    >>> check_projection(25, courses=3)
    Fraction(75, 1)
    """
    each, count, rule = number(projection), whole_courses(courses), named_limit(limit)
    if each <= 0:
        raise TradeError(f"a projection of {size(each)} mm does not stand out: it must be above 0")
    most = rule.per_course(format, thickness)
    if each > most:
        raise TradeError(f"a projection of {size(each)} mm a course is too much: {rule.name} allows {size(most)} mm")
    together = each * count
    if rule.total is not _unstated and together > (most := rule.total(format, thickness)):
        raise TradeError(
            f"{in_courses(count)} of {size(each)} mm stand out {size(together)} mm together, too much: {rule.name} "
            f"allows {size(most)} mm in all"
        )
    return together


def named_limit(name: str) -> ProjectionLimit:
    """The limit of that name in `PROJECTION_LIMITS`; `TradeError` with the names there are if it is none."""
    if name not in PROJECTION_LIMITS:
        raise TradeError(f"no limit on a projection is called {name!r}: use {', '.join(PROJECTION_LIMITS)}")
    return PROJECTION_LIMITS[name]


def _always(mm: int) -> Reach:
    return lambda _format=UK_METRIC, _thickness="1/2": Fraction(mm)


def _part_of_wall(part: Fraction) -> Reach:
    def reach(format: Format = UK_METRIC, thickness: Exact = "1/2") -> Fraction:
        return part * wall_thickness(thickness, format)

    return reach


def _us_course(format: Format = UK_METRIC, thickness: Exact = "1/2") -> Fraction:
    """Half the unit's height and a third of its depth on the bed: the lesser holds. The wall plays no part."""
    del thickness
    return min(format.height / 2, format.width / 3)


def _unstated(format: Format = UK_METRIC, thickness: Exact = "1/2") -> Fraction:
    del format, thickness
    raise TradeError("this limit states no projection in all, only one for each course: name another limit")


PROJECTION_LIMITS: Mapping[str, ProjectionLimit] = MappingProxyType(
    {
        "uk_corbel": ProjectionLimit(
            name="the UK limit for corbels",
            per_course=_always(56),
            total=_part_of_wall(Fraction(1)),
            source="a UK glossary: 56 mm a course, the wall's thickness in all",
        ),
        "uk_oversail": ProjectionLimit(
            name="the UK limit for oversailing courses",
            per_course=_always(30),
            total=_unstated,
            source="a UK glossary: 30 mm for an oversailing course",
        ),
        "us_corbel": ProjectionLimit(
            name="the US limit for corbels",
            per_course=_us_course,
            total=_unstated,
            source="US practice: half the unit's height and a third of the bed depth a course",
        ),
        "ontario_corbel": ProjectionLimit(
            name="the Ontario limit for corbels",
            per_course=_always(25),
            total=_part_of_wall(Fraction(1, 3)),
            source="Ontario: 25 mm a unit, a third of the wall in all",
        ),
    }
)
"""The limits there are figures for, by the name a bank gives them."""
