"""A projecting frame round a panel: which arris to level on its bottom and on its top run, and how the work rises."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from courseware.trade.errors import TradeError, in_courses
from courseware.trade.exact import Exact
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import clear_height, height, whole_courses
from courseware.trade.projecting import check_projection
from courseware.trade.sight import arris_to_level


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where the runs of a projecting frame stand above the floor, in mm, and the arris to level on each."""

    bottom_height: Fraction  # top of the bottom run
    top_height: Fraction  # top of the top run
    bottom_arris: str
    top_arris: str
    projects: Fraction


def projecting_frame(
    courses: Exact,
    below: Exact,
    eye_height: Exact,
    projects: Exact,
    format: Format = UK_METRIC,
    rule: str = "outline",
    limit: str = "uk_corbel",
) -> Frame:
    """The frame in an opening of `courses`, over `below` courses of wall, seen from `eye_height` above the floor.

    The floor is the datum: courses below are counted from it. The bottom run stands on the wall, a bed up; the top run
    ends a bed under the brick above. Each run has its own arris by the centre's rule: the two can differ. Raises
    `TradeError` where an eye line runs along a run's top, and where the projection is more than the limit allows.

    >>> frame = projecting_frame(15, 6, 1000, 25)
    >>> frame.bottom_arris, frame.top_arris
    ('underside', 'top')
    """
    out = check_projection(projects, format, limit=limit)
    base = height(below, format)
    bottom = base + format.bed + format.width
    top = base + clear_height(courses, format) - format.bed
    if top - format.width <= bottom:
        raise TradeError(
            f"an opening of {in_courses(whole_courses(courses))} leaves nothing between the runs of a frame"
        )
    return Frame(
        bottom_height=bottom,
        top_height=top,
        bottom_arris=arris_to_level(bottom, eye_height, rule),
        top_arris=arris_to_level(top, eye_height, rule),
        projects=out,
    )
