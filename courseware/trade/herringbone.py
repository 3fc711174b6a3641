"""Herringbone in a rectangular opening: bricks lying three to one against each other, whole where they fit, else cut.

Common practice, no source, where none is named; all of it is geometry. A brick and its joint must be three times as
long as it is high with its joint. At 90 degrees the bricks lie level and stand plumb, at 45 degrees the whole pattern
is turned by that much.

The panel is set out from its centre line, so that what is cut on one side is cut on the other. The line runs between
two rows of bricks or through the middle of one, whichever leaves the larger pieces at the sides. At 45 degrees the rows
are plumb, bricks leaning to the left in one and to the right in the next. With the line between two, midway between the
points of both, what is right of it is the mirror image of what is left of it, half a repeat higher; with the line
through the middle of a brick the panel is the same turned half round. At 90 degrees a row is as wide as a brick is
high, and the panel is the same turned half round where its width and its height ask for the same.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number
from courseware.trade.exact_outline import Corners, clipped, sides_of, twice_area, within
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.mitre import Point
from courseware.trade.root_two import ROOT_2, Surd, in_figures, less, sign
from courseware.trade.weave import check_closes

ANGLES = (45, 90)
_LONG = 3  # pitches to a brick
_HALF = Fraction(1, 2)
_ENOUGH = 3  # places beyond the opening in which the pattern is still looked at
Places = tuple[tuple[int, int], ...]
Shape = tuple[Surd, tuple[Surd, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class HerringbonePiece:
    """A brick, or what is left of one.

    `corners` are whole `parts` of a mm from the panel's middle, anticlockwise and exact; `outline` is the same in mm.
    """

    whole: bool
    corners: Corners
    parts: int
    middle: Point

    @property
    def outline(self) -> tuple[Point, ...]:
        """The corners in mm from the opening's lower left corner, anticlockwise."""
        across, up = self.middle
        return tuple((across + in_figures(x, self.parts), up + in_figures(y, self.parts)) for x, y in self.corners)


@dataclass(frozen=True, slots=True, kw_only=True)
class Herringbone:
    """The pattern in its opening: every piece placed, whole and cut bricks counted.

    `shapes` counts the cut pieces alike in area and sides. A brick is taken for each piece; `waste_percent` is what is
    cut away of the bricks taken.
    """

    pieces: tuple[HerringbonePiece, ...]
    whole: int
    cut: int
    shapes: tuple[int, ...]
    waste_percent: Fraction

    @property
    def bricks(self) -> int:
        """Bricks taken, one to a piece."""
        return self.whole + self.cut


def herringbone(width: Exact, height: Exact, format: Format = UK_METRIC, angle: int = 45) -> Herringbone:
    """Herringbone in an opening `width` by `height` mm, with a joint all round.

    The pattern is set out from the centre line. Slivers thinner than a joint are mortar, not pieces. Raises
    `TradeError` where the format does not lie three to one, and for an opening that no brick fits.

    >>> laid = herringbone(910, 910, angle=90)
    >>> laid.whole, laid.cut
    (40, 16)
    """
    return _laid(number(width), number(height), format, angle)


@lru_cache(maxsize=256)  # its pieces, its cuts and its waste are asked for one after another, in a proof more than once
def _laid(wide: Fraction, high: Fraction, format: Format, angle: int) -> Herringbone:
    if angle not in ANGLES:
        raise TradeError(f"herringbone at {size(Fraction(angle))} degrees is not known: use 45 or 90")
    check_closes(format)
    pitch = format.module / _LONG
    joint = pitch - format.height
    if min(wide, high) - 2 * joint < format.length:
        raise TradeError(
            f"an opening of {size(wide)} by {size(high)} mm takes no herringbone: a brick of {size(format.length)} mm "
            f"and its joints must fit both ways"
        )
    room = wide / 2 - joint, high / 2 - joint
    parts = 2 * math.lcm(*(f.denominator for f in (*room, joint, pitch / 2, format.length / 2, format.height / 2)))
    limits = int(room[0] * parts), int(room[1] * parts)
    full = int(2 * format.length * format.height * parts**2)
    pieces: list[HerringbonePiece] = []
    shapes: Counter[Shape] = Counter()
    kept: Surd = (0, 0)
    for corners in _bricks(room, joint, format, angle, parts):
        whole = all(within(corner, limits) for corner in corners)
        piece, area = corners, (full, 0)
        if not whole:
            piece = clipped(corners, limits)
            area, sides = twice_area(piece), sides_of(piece)
            if _thin(sides, area, int(joint * parts)):
                continue
            shapes[area, tuple(sorted(sides))] += 1
        kept = kept[0] + area[0], kept[1] + area[1]
        pieces.append(HerringbonePiece(whole=whole, corners=piece, parts=parts, middle=(wide / 2, high / 2)))
    uncut = len(pieces) - shapes.total()
    return Herringbone(
        pieces=tuple(pieces),
        whole=uncut,
        cut=shapes.total(),
        shapes=tuple(sorted(shapes.values(), reverse=True)),
        waste_percent=100 * (1 - in_figures(kept) / Fraction(full * len(pieces))),
    )


def _bricks(
    room: tuple[Fraction, Fraction], joint: Fraction, format: Format, angle: int, parts: int
) -> Iterator[Corners]:
    """Every brick of the pattern that may reach into the opening.

    The pattern comes again one place along and one up, and three along and three down. A brick lies in the places
    (0, 0) to (2, 0) and one stands in (5, 0) to (5, 2).
    """
    pitch = format.module / _LONG
    middle = _middle(room, joint, pitch, angle)
    rows, columns = (math.ceil(max(room) / (pitch * n)) + _ENOUGH for n in (1, _LONG))
    step = int(pitch / 2 * parts)
    for lying, at in ((True, (3 * _HALF, _HALF)), (False, (11 * _HALF, 3 * _HALF))):
        left, low = int(2 * (at[0] - middle[0])), int(2 * (at[1] - middle[1]))
        brick = _box(format, parts, lying=lying)
        most = tuple(_furthest(int(half * parts), brick[2], axis, angle) for axis, half in enumerate(room))
        for row in range(-rows, rows + 1):
            for column in range(-columns, columns + 1):
                x = (left + 2 * (row + _LONG * column)) * step
                y = (low + 2 * (row - _LONG * column)) * step
                across, up = (x - y, x + y) if angle == 45 else (x, y)
                if abs(across) <= most[0] and abs(up) <= most[1]:
                    yield _turned(tuple((x + right, y + rise) for right, rise in brick), angle)


def _middle(room: tuple[Fraction, Fraction], joint: Fraction, pitch: Fraction, angle: int) -> tuple[Fraction, Fraction]:
    """The place of the pattern, in pitches, that lies in the panel's middle.

    Turned half round the pattern comes upon itself about (3/2, 1/2), the middle of a brick, and about (2, 1), the
    middle of the bed between two. At 45 degrees, mirrored at the plumb line through (0, 1/2), the middle of a brick's
    end, it does so half a repeat higher.
    """
    if angle == 45:
        between = _larger_between((2 * room[0] + joint) * ROOT_2 / (_LONG * pitch))
        return (Fraction(0), _HALF) if between else (3 * _HALF, _HALF)
    across, up = (_larger_between((2 * half + joint) / pitch) for half in room)
    x, y = (Fraction(2), Fraction(1)) if across else (3 * _HALF, _HALF)
    return x, y if across == up else y + _HALF  # width and height ask for one each: the centre line stands


def _larger_between(rows: Fraction) -> bool:
    """Whether the last of so many rows side by side are larger with the line between two than through one."""
    return -rows / 2 % 1 <= (1 - rows) / 2 % 1


def _box(format: Format, parts: int, *, lying: bool) -> Places:
    """The corners of a brick about its own middle."""
    long, high = int(format.length / 2 * parts), int(format.height / 2 * parts)
    x, y = (long, high) if lying else (high, long)
    return (-x, -y), (x, -y), (x, y), (-x, y)


def _furthest(limit: int, corner: tuple[int, int], axis: int, angle: int) -> int:
    """How far from the panel's middle that of a brick may lie, for a corner of it to reach in.

    At 45 degrees the sum or difference of its places is meant, which is that distance times √2.
    """
    return math.isqrt(2 * limit * limit) + sum(corner) if angle == 45 else limit + corner[axis]


def _turned(places: Places, angle: int) -> Corners:
    """Corners from the panel's middle, the pattern turned about it; places are even, so that halves are whole."""
    if angle == 45:  # √2/2 of the difference and of the sum
        return tuple(((0, (x - y) // 2), (0, (x + y) // 2)) for x, y in places)
    return tuple(((x, 0), (y, 0)) for x, y in places)


def _thin(sides: Sequence[Surd], area: Surd, joint: int) -> bool:
    """Whether the piece, or nothing at all, is a sliver: on average, along its longest side, thinner than a joint.

    `area` is twice the piece's.
    """
    return sign(area) <= 0 or any(sign(less(area, (2 * joint * a, 2 * joint * b))) < 0 for a, b in sides)
