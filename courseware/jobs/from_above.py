"""A course of the wall and its support seen from above, brick by brick: what turns at the ends and what is cut.

Common practice, no source; all of it follows from stretcher bond. Where a course of the wall would end on a half bat, a
whole brick turns there instead and runs back into the return or the pier: its header shows on the face. It does so
where a half brick's length and a joint are a brick's width and a joint, as in every format that a surround closes in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from courseware.jobs.support import BONDED, RETURN_BRICKS
from courseware.trade import Format

_HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class FromAbove:
    """One brick of a course, in mm: x from the wall's left end, y back from its face."""

    left: Fraction
    front: Fraction
    right: Fraction
    back: Fraction
    half: bool = False


def course_from_above(
    bricks: Fraction, row: int, brick: Format, support: str, return_bricks: Fraction = RETURN_BRICKS
) -> tuple[FromAbove, ...]:
    """Every brick of a course that runs the whole wall, `bricks` long in halves, and of its support.

    Row 0 is the first course. Props are not brickwork, so they add none.
    """
    wall = [
        FromAbove(left=start, front=Fraction(0), right=end, back=brick.width, half=half)
        for start, end, half in _run(bricks, brick, half_first=row % 2 == 1)
    ]
    if support not in BONDED:
        return tuple(wall)
    at_left, at_right = turned(bricks, row)
    long = bricks * brick.module - brick.perpend
    kept = wall[1 if at_left else 0 : -1 if at_right else None]
    left, right = (_support(support, brick, return_bricks, turned=at) for at in (at_left, at_right))
    return (*left, *kept, *(_mirrored(one, long) for one in right))


def turned(bricks: Fraction, row: int) -> tuple[bool, bool]:
    """Whether the course ends on half a brick, at the left and at the right: there its end brick turns.

    >>> turned(Fraction(8), 1), turned(Fraction(13, 2), 0)
    ((True, True), (False, True))
    """
    starts = row % 2 == 1
    return starts, (2 * bricks - starts) % 2 == 1


def support_halves(
    bricks: Fraction, courses: int, brick: Format, support: str, return_bricks: Fraction = RETURN_BRICKS
) -> int:
    """Half bats that the support adds to those of a straight wall, for both ends; fewer where ends turn.

    A turned end takes a whole brick in the place of the wall's half bat.
    """
    if support not in BONDED:
        return 0
    added = 0
    for row in range(courses):
        for at in turned(bricks, row):
            added += sum(one.half for one in _support(support, brick, return_bricks, turned=at)) - at
    return added


def _support(support: str, brick: Format, return_bricks: Fraction, *, turned: bool) -> tuple[FromAbove, ...]:
    """The bricks of one course of the support at the left end, the turned one among them."""
    if support == "returns":
        return tuple(_return(brick, return_bricks, turned=turned))
    behind = brick.half + brick.width
    if not turned:  # a stretcher behind the wall's own
        return (FromAbove(left=Fraction(0), front=brick.half, right=brick.length, back=behind),)
    header = FromAbove(left=Fraction(0), front=Fraction(0), right=brick.width, back=brick.length)
    return header, FromAbove(left=brick.half, front=brick.half, right=brick.length, back=behind, half=True)


def _return(brick: Format, bricks: Fraction, *, turned: bool) -> Iterator[FromAbove]:
    """A return runs back from the face where its end brick turns, from behind the wall where it does not."""
    start = Fraction(0) if turned else brick.half
    for front, back, half in _run(bricks - (Fraction(0) if turned else _HALF), brick, half_first=False):
        yield FromAbove(left=Fraction(0), front=start + front, right=brick.width, back=start + back, half=half)


def _run(bricks: Fraction, brick: Format, *, half_first: bool) -> Iterator[tuple[Fraction, Fraction, bool]]:
    """Where each brick of a run starts and ends, and whether it is a half."""
    at, left = Fraction(0), bricks
    while left > 0:
        half = left == _HALF or (half_first and at == 0)
        takes = _HALF if half else Fraction(1)
        yield at, at + takes * brick.module - brick.perpend, half
        at += takes * brick.module
        left -= takes


def _mirrored(one: FromAbove, long: Fraction) -> FromAbove:
    return FromAbove(left=long - one.right, front=one.front, right=long - one.left, back=one.back, half=one.half)
