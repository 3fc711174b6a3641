"""Decorative courses: stack bond, soldier courses, sills on edge, string courses, dentils and dog-tooth.

Common practice, no source, where none is named; the geometry is that of openings and piers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from courseware.trade.angles import root
from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import whole_courses
from courseware.trade.openings import half_bricks

_ROOT_2 = root(Fraction(2))
_LEAST, _MOST = Fraction(3, 5), Fraction(7, 5)  # of a joint, that a run may be eased to: common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Pieces side by side in a length: how many, how far apart from edge to edge, and the joint between them, in mm."""

    pieces: int
    pitch: Fraction
    joint: Fraction


def pieces_in(wide: Exact, length: Exact, pitch: Exact) -> int:
    """Whole pieces `wide` mm wide that stand in a length, one every `pitch` mm, the first hard against one end.

    The last piece needs no joint after it, so n pieces take (n - 1) pitches and one piece. 0 where none fits. Raises
    `TradeError` where a piece has no width, or the next would stand on it.

    >>> pieces_in(65, 890, 75), pieces_in(65, 889, 75)
    (12, 11)
    """
    each, whole, step = number(wide), number(length), number(pitch)
    if each <= 0 or step < each:
        raise TradeError(f"pieces {size(each)} mm wide cannot stand every {size(step)} mm")
    return max(0, math.floor((whole - each) / step) + 1)


def stack_bond(bricks: Exact, courses: Exact, format: Format = UK_METRIC) -> int:
    """Bricks in a panel of stack bond, every perpend above the last: bricks by courses, halves not possible.

    >>> stack_bond(4, 15)
    60
    """
    wide = half_bricks(bricks)
    if wide.denominator != 1:
        raise TradeError(
            f"stack bond has no half bricks: {size(wide)} bricks cannot be stacked without a cut in every course"
        )
    return int(wide) * whole_courses(courses)


def soldiers(length: Exact, format: Format = UK_METRIC) -> Run:
    """Soldiers side by side between two ends `length` mm apart, brick edge to brick edge: see `run_of`.

    >>> soldiers(890).pieces
    12
    """
    return run_of(format.height, length, format.perpend)


def on_edge(length: Exact, format: Format = UK_METRIC) -> Run:
    """Bricks on edge side by side, as a sill or a capping shows them: each as wide as a soldier."""
    return run_of(format.height, length, format.perpend)


def run_of(wide: Exact, length: Exact, joint: Exact = 10) -> Run:
    """As many pieces of that width as stand in a length with joints nearest to `joint`, a piece at both ends.

    The joint is what they leave; it is the same everywhere. Raises `TradeError` where it would come out under three
    fifths of the joint asked for or over seven fifths, with the lengths on either side that work.

    >>> run_of(65, 905)
    Run(pieces=12, pitch=Fraction(840, 11), joint=Fraction(125, 11))
    """
    each, whole, asked = number(wide), number(length), number(joint)
    if each <= 0 or asked <= 0 or whole < 2 * each + asked * _LEAST:
        raise TradeError(f"a length of {size(whole)} mm takes no run of pieces {size(each)} mm wide")
    step = each + asked
    count = max(2, pieces_in(each, whole + step / 2, step))  # the number whose joints are nearest
    left = (whole - count * each) / (count - 1)
    if not asked * _LEAST <= left <= asked * _MOST:
        below = pieces_in(each, whole, step) * step - asked
        raise TradeError(
            f"pieces {size(each)} mm wide do not run into {size(whole)} mm: {count} leave joints of {size(left)} mm; "
            f"with {size(asked)} mm joints {size(below)} and {size(below + step)} mm work"
        )
    return Run(pieces=count, pitch=each + left, joint=left)


def dentils(length: Exact, format: Format = UK_METRIC) -> tuple[int, int]:
    """Headers of a dentil course between two ends: those that project and those that stand back, one after another.

    Headers stand half a module apart and one projects at both ends, so the length takes an odd number of them. Raises
    `TradeError` where it does not, with the lengths on either side that do.

    >>> dentils(1002.5)
    (5, 4)
    """
    whole = number(length)
    count = pieces_in(format.width, whole, format.half)
    if count < 3 or count % 2 == 0 or _headers(count, format) != whole:
        low = max(3, (count - 1) // 2 * 2 + 1)
        raise TradeError(
            f"a dentil course does not run into {size(whole)} mm with a dentil at both ends: headers go in odd "
            f"numbers; {size(_headers(low, format))} and {size(_headers(low + 2, format))} mm work"
        )
    return (count + 1) // 2, (count - 1) // 2


def _headers(count: int, format: Format) -> Fraction:
    """The length of so many headers side by side, in mm."""
    return count * format.half - format.perpend


@dataclass(frozen=True, slots=True, kw_only=True)
class DogTooth:
    """A dog-tooth course: bricks laid flat at 45 degrees to the wall, their corners at the face or before it."""

    teeth: int
    pitch: Fraction  # along the wall, from corner to corner, mm
    wide: Fraction  # of one tooth along the wall, mm
    depth: Fraction  # from the corners back to where two bricks meet, mm


def dog_tooth(length: Exact, format: Format = UK_METRIC, joint: Exact | None = None) -> DogTooth:
    """As many teeth as stand whole in a length; `TradeError` where none does, or where the joint is not a joint.

    Two bricks side by side at 45 degrees, a joint between them (a perpend unless given), come a width and a joint apart
    square to themselves, and 1.4142 times that along the wall; a tooth is 1.4142 times the width. Teeth are as deep as
    half their pitch. See `pieces_in`.

    >>> tooth = dog_tooth(2850)
    >>> tooth.teeth, round(float(tooth.pitch), 2), round(float(tooth.wide), 2)
    (18, 159.1, 144.96)
    """
    whole, between = number(length), format.perpend if joint is None else number(joint)
    if between <= 0:
        raise TradeError(f"a joint of {size(between)} mm leaves no room for mortar between two teeth")
    wide, pitch = format.width * _ROOT_2, (format.width + between) * _ROOT_2
    teeth = pieces_in(wide, whole, pitch)
    if teeth < 1:
        raise TradeError(f"a length of {size(whole)} mm takes no tooth: one needs {size(wide)} mm")
    return DogTooth(teeth=teeth, pitch=pitch, wide=wide, depth=pitch / 2)
