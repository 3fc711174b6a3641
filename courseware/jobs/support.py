"""What keeps a half-brick wall from going over while it is green: returns, piers or props, and a day's height."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from courseware.trade import Format

# All common practice, no source: a centre sets its own figures in the job's file.
KINDS: Mapping[str, str] = {
    "returns": "a return of {bricks} at each end, bonded with the wall as it goes up",
    "piers": "a pier one brick wide and half a brick deep behind each end, bonded with the wall as it goes up",
    "props": "a raking prop with a board to each side of every end, set before the wall stands above {free} mm",
}
BONDED = ("returns", "piers")  # brickwork; props are none
RETURN_BRICKS = Fraction(2)
PROPS = 4  # one to each side of both ends
FREE_HEIGHT, DAY_HEIGHT = Fraction(725), Fraction(1500)  # mm


def support_bricks(kind: str, courses: int, return_bricks: Fraction = RETURN_BRICKS) -> Fraction:
    """The bricks that the support takes besides the wall's own, for both ends.

    In stretcher bond a return shares its corner with the wall, half a brick a course; a pier one brick wide and half a
    brick deep takes a brick a course; props take none. Geometry: `from_above` lays them brick by brick.
    """
    each = {"returns": return_bricks - Fraction(1, 2), "piers": Fraction(1)}.get(kind, Fraction(0))
    return 2 * courses * each


def support_says(kind: str, free: str, returns: str) -> str:
    """The support in words; `free` is the height in mm up to which the wall may stand alone, `returns` `2 bricks`."""
    return KINDS[kind].format(bricks=returns, free=free)


def days_of(courses: int, day_height: Fraction, brick: Format) -> tuple[int, ...]:
    """The course that each day ends on, none going up by more than `day_height`, in mm, nor by less than a course."""
    a_day = max(1, day_height // brick.course)
    return tuple(min(courses, done) for done in range(a_day, courses + a_day, a_day))
