"""Stretcher bond, brick by brick: runs of whole and half bricks, and the joints that part them.

Places are in mm of wall, x to the right and y upwards from the top of the brick below the first course. They are
floats: each course is stepped off from an exact size of the trade core, and paper is coarser than a float.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache

from courseware.trade import Format


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBrick:
    """One brick in its place on the face of the wall; `half` where it is a bat of half a module less a joint."""

    left: float
    bottom: float
    right: float
    top: float
    half: bool = False


@cache
def bed_of(row: int, brick: Format) -> tuple[float, float]:
    """Underside and top of the bricks of a course; row 0 is the first course above the brick below.

    Row -1 is that brick itself, whose top is the datum at 0.
    """
    under = row * brick.course + brick.bed
    return float(under), float(under + brick.height)


@lru_cache(maxsize=4096)
def run(
    bricks: Fraction, start: Fraction, row: int, brick: Format, *, half_first: bool = False
) -> tuple[PlacedBrick, ...]:
    """`bricks` (in halves) laid from `start` to the right: stretchers, a half first if asked, a half last where left.

    The run is bricks x module less the perpend long, the length of a pier of as many.
    """
    halves = int(bricks * 2)
    under, top = bed_of(row, brick)
    half, joint, at = float(brick.half), float(brick.perpend), float(start)
    laid: list[PlacedBrick] = []
    while halves:
        takes = 1 if halves == 1 or (half_first and not laid) else 2
        laid.append(PlacedBrick(left=at, bottom=under, right=at + takes * half - joint, top=top, half=takes == 1))
        at += takes * half
        halves -= takes
    return tuple(laid)


def stopped(bricks: Fraction, row: int, brick: Format, start: Fraction = Fraction(0)) -> tuple[PlacedBrick, ...]:
    """A course of a wall between two stopped ends: every other course begins with a half, so joints are broken."""
    return run(bricks, start, row, brick, half_first=row % 2 == 1)


def toothed(bricks: int, row: int, brick: Format, start: Fraction = Fraction(0)) -> tuple[PlacedBrick, ...]:
    """A course of a wall that goes on at both ends: stretchers alone, every other course half a brick to the right."""
    return run(Fraction(bricks), start + row % 2 * brick.half, row, brick)


def section(row: int, brick: Format, face: Fraction = Fraction(0)) -> PlacedBrick:
    """The brick of a course where a half-brick wall is cut through, its face at `face`."""
    under, top = bed_of(row, brick)
    return PlacedBrick(left=float(face), bottom=under, right=float(face + brick.width), top=top)


def wholes(laid: Iterable[PlacedBrick]) -> tuple[PlacedBrick, ...]:
    """The stretchers among them."""
    return tuple(brick for brick in laid if not brick.half)


def bats(laid: Iterable[PlacedBrick]) -> tuple[PlacedBrick, ...]:
    """The half bricks among them."""
    return tuple(brick for brick in laid if brick.half)
