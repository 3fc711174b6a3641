"""A projecting frame round a panel: which arris to level on its bottom and on its top run, and how the work rises."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from courseware.trade.errors import TradeError, in_courses, size
from courseware.trade.exact import Exact, number, whole
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


def bay_arrises(
    bands: Exact, foot: Exact, eye_height: Exact, format: Format = UK_METRIC, rule: str = "outline"
) -> tuple[str, ...]:
    """The arris to level on projecting bays, band by band from the lowest of a panel whose foot is so high.

    A band is a module high less its bed; each is judged by its own top. Raises `TradeError` as `arris_to_level` does.

    >>> bay_arrises(3, 900, 1400)
    ('underside', 'underside', 'top')
    """
    low = number(foot)
    tops = [low + n * format.module - format.bed for n in range(1, whole(bands, what="bands are whole") + 1)]
    return tuple(arris_to_level(top, eye_height, rule) for top in tops)


def rises_together(uprights: Sequence[Exact], infill: Sequence[Exact], ahead: Exact) -> bool:
    """Whether the uprights, lift by lift, never stand more than `ahead` courses above the infill.

    Both are courses built after each lift. Raises `TradeError` where they are not of one length, go down, or where the
    infill stands above the uprights that hold it.

    >>> rises_together([3, 6, 9], [0, 3, 6], ahead=3), rises_together([6, 6], [0, 6], ahead=3)
    (True, False)
    """
    most = whole(ahead, what="courses are whole")
    if len(uprights) != len(infill):
        raise TradeError("the uprights and the infill must be told for the same lifts")
    pairs = [(number(up), number(fill)) for up, fill in zip(uprights, infill, strict=True)]
    for (up, fill), (up_next, fill_next) in pairwise(pairs):
        if up_next < up or fill_next < fill:
            raise TradeError("brickwork does not go down: each lift must be as high as the last")
    for up, fill in pairs:
        if fill > up:
            raise TradeError(
                f"infill {size(fill)} courses high stands above the uprights, {size(up)}: nothing holds it"
            )
    return all(up - fill <= most for up, fill in pairs)
