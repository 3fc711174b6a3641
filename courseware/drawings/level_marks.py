"""Levels: a thin line off the work with the datum triangle standing on it, and the level's name."""

from __future__ import annotations

from courseware.drawings.dimension import NAME, Marks, name
from courseware.drawings.lines import REFERENCE
from courseware.drawings.picture import Point

NAMED = 29.5  # mm of paper for the longest of the usual names
_GAP = 1.0  # mm of paper between the work and the line
_WIDE, _HIGH = 2.4, 2.0  # mm of paper: the triangle
_BEFORE, _AFTER = 0.4, 0.6  # mm of paper before the triangle, and between it and the name


def level(at: Point, says: str, reach: float = NAMED, *, below: bool = False) -> Marks:
    """The level of the point `at` on the work's left edge, or its right one where `reach` is negative.

    The triangle's point is on the line; triangle and name stand over the line, or `below` it where two lie close. On
    the left the line reaches further where its name is longer, so that no name stands over the work.
    """
    named = _BEFORE + _WIDE + _AFTER + name((0.0, 0.0), says).width
    reach = max(reach, named) if reach > 0 else reach
    start, end = sorted((at[0] - reach, at[0] - (_GAP if reach > 0 else -_GAP)))
    way = 1.0 if below else -1.0
    tip = start + _BEFORE + _WIDE / 2, at[1]
    triangle = (tip, (tip[0] - _WIDE / 2, tip[1] + way * _HIGH), (tip[0] + _WIDE / 2, tip[1] + way * _HIGH))
    foot = at[1] + NAME + 0.3 if below else at[1] - 0.7
    return (
        REFERENCE.stroke(((start, at[1]), (end, at[1]))),
        REFERENCE.stroke(triangle, closed=True, fill=0.0 if "datum" in says else 1.0),
        name((start + _BEFORE + _WIDE + _AFTER, foot), says),
    )
