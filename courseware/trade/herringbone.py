"""Herringbone in a rectangular opening: bricks lying three to one against each other, whole where they fit, else cut.

Common practice, no source; all of it is geometry. A brick and its joint must be three times as long as it is high with
its joint. At 90 degrees the bricks lie level and stand plumb, at 45 degrees the whole pattern is turned by that much.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courseware.trade.angles import root
from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.mitre import Point
from courseware.trade.weave import check_closes

ANGLES = (45, 90)
_LONG = 3  # pitches to a brick
_REPEAT = 2 * _LONG  # places after which a row of the pattern comes again
_ROOT_2 = root(Fraction(2))
_MILLIONTH = Fraction(1, 10**6)
PieceShape = tuple[Fraction, ...]
Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HerringbonePiece:
    """A brick, or what is left of one: its outline in mm from the opening's lower left corner, anticlockwise."""

    whole: bool
    outline: tuple[Point, ...]


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

    The pattern is set out from the middle of the opening. Slivers thinner than a joint are mortar, not pieces. Raises
    `TradeError` where the format does not lie three to one, and for an opening that no brick fits.

    >>> laid = herringbone(910, 910, angle=90)
    >>> laid.whole, laid.cut
    (33, 23)
    """
    return _laid(number(width), number(height), format, angle)


@lru_cache(maxsize=32)  # its pieces, its cuts and its waste are asked for one after another
def _laid(wide: Fraction, high: Fraction, format: Format, angle: int) -> Herringbone:
    if angle not in ANGLES:
        raise TradeError(f"herringbone at {size(Fraction(angle))} degrees is not known: use 45 or 90")
    pitch, joint = format.module / _LONG, format.module / _LONG - format.height
    check_closes(format)
    inner = (joint, joint, wide - joint, high - joint)
    if min(inner[2] - inner[0], inner[3] - inner[1]) < format.length:
        raise TradeError(
            f"an opening of {size(wide)} by {size(high)} mm takes no herringbone: a brick of {size(format.length)} mm "
            f"and its joints must fit both ways"
        )
    full = format.length * format.height
    pieces: list[HerringbonePiece] = []
    shapes: Counter[PieceShape] = Counter()
    kept = Fraction(0)
    for outline, uncut_area in _bricks(wide, high, pitch, format, angle):
        within = _within(outline, inner)
        piece = outline if within else _clipped(outline, inner)
        area = uncut_area if within else _area(piece)
        if area <= 0:
            continue
        sides = [] if within else _sides(piece)
        if sides and _thin(sides, area, joint):
            continue
        whole = full - area < _MILLIONTH
        kept += area
        pieces.append(HerringbonePiece(whole=whole, outline=piece))
        if not whole:
            shapes[_shape(sides, area)] += 1
    uncut = sum(1 for piece in pieces if piece.whole)
    return Herringbone(
        pieces=tuple(pieces),
        whole=uncut,
        cut=len(pieces) - uncut,
        shapes=tuple(sorted(shapes.values(), reverse=True)),
        waste_percent=100 * (1 - kept / (full * len(pieces))),
    )


def _bricks(
    wide: Fraction, high: Fraction, pitch: Fraction, format: Format, angle: int
) -> Iterator[tuple[Outline, Fraction]]:
    """Every brick of the pattern that may reach the opening, and its area as turned.

    In sixes, a brick lies with its left end in place (x, y) where x = y, and stands on it where x - y = 5. Corners are
    whole numbers of a part of a mm that divides all of them, until one is known to reach in.
    """
    reach = math.ceil((wide + high) / pitch) + _REPEAT
    middle = wide / 2, high / 2
    most = tuple(_furthest(half, format.length + format.height, pitch, angle) for half in middle)
    lying, standing = _rectangle(format.length, format.height), _rectangle(format.height, format.length)
    turned = {at: tuple(_turned(corner, angle, middle) for corner in outline) for at, outline in
              ((0, lying), (_REPEAT - 1, standing))}  # fmt: skip
    areas = {at: _area(outline) for at, outline in turned.items()}
    step = pitch / _ROOT_2 if angle == 45 else pitch
    parts = math.lcm(step.denominator, *(v.denominator for outline in turned.values() for p in outline for v in p))
    unit, right, top = int(step * parts), math.ceil(wide * parts), math.ceil(high * parts)
    corners = {at: [(int(x * parts), int(y * parts)) for x, y in outline] for at, outline in turned.items()}
    for y in range(-reach, reach):
        for x in range(-reach, reach):
            across, up = (x - y, x + y) if angle == 45 else (x, y)
            at = (x - y) % _REPEAT
            if abs(across) > most[0] or abs(up) > most[1] or at not in corners:
                continue
            placed = [(left + across * unit, low + up * unit) for left, low in corners[at]]
            if _near(placed, right, top):
                yield tuple((Fraction(left, parts), Fraction(low, parts)) for left, low in placed), areas[at]


def _rectangle(long: Fraction, high: Fraction) -> Outline:
    return (Fraction(0), Fraction(0)), (long, Fraction(0)), (long, high), (Fraction(0), high)


def _furthest(half: Fraction, brick: Fraction, pitch: Fraction, angle: int) -> int:
    """How many pitches from the middle a brick's place may lie, along a side or at 45 degrees to it, to reach in."""
    pitches = (half + brick) / pitch
    if angle == 45:  # the place lies (x - y) / √2 pitches along the side
        return math.isqrt(math.ceil(2 * pitches * pitches)) + 1
    return math.ceil(pitches) + 1


def _turned(corner: Point, angle: int, middle: Point) -> Point:
    x, y = corner
    if angle == 45:
        x, y = (x - y) / _ROOT_2, (x + y) / _ROOT_2
    return x + middle[0], y + middle[1]


def _near(outline: Sequence[tuple[int, int]], wide: int, high: int) -> bool:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return max(xs) > 0 and min(xs) < wide and max(ys) > 0 and min(ys) < high


def _within(outline: tuple[Point, ...], inner: tuple[Fraction, ...]) -> bool:
    return all(inner[0] <= x <= inner[2] and inner[1] <= y <= inner[3] for x, y in outline)


def _clipped(outline: tuple[Point, ...], inner: tuple[Fraction, ...]) -> tuple[Point, ...]:
    """What of a convex outline lies within the opening, side by side (Sutherland and Hodgman)."""
    for axis, limit, keep in ((0, inner[0], 1), (1, inner[1], 1), (0, inner[2], -1), (1, inner[3], -1)):
        deep = [point[axis] - limit if keep > 0 else limit - point[axis] for point in outline]
        if min(deep) >= 0:
            continue
        kept: list[Point] = []
        for place, (here, inside) in enumerate(zip(outline, deep, strict=True)):
            there, next_inside = outline[place - len(deep) + 1], deep[place - len(deep) + 1]
            if inside >= 0:
                kept.append(here)
            if inside < 0 < next_inside or next_inside < 0 < inside:
                part = inside / (inside - next_inside)
                kept.append((here[0] + part * (there[0] - here[0]), here[1] + part * (there[1] - here[1])))
        outline = tuple(kept)
        if not outline:
            break
    return outline


def _area(outline: tuple[Point, ...]) -> Fraction:
    pairs = zip(outline, outline[1:] + outline[:1], strict=True)
    return sum((x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs), Fraction(0)) / 2


def _sides(outline: tuple[Point, ...]) -> list[Fraction]:
    return [
        root((x2 - x1) ** 2 + (y2 - y1) ** 2)
        for (x1, y1), (x2, y2) in zip(outline, outline[1:] + outline[:1], strict=True)
    ]


def _thin(sides: Sequence[Fraction], area: Fraction, joint: Fraction) -> bool:
    """Whether the piece is a sliver: on average, along its longest side, thinner than a joint."""
    return area < max(sides) * joint


def _shape(sides: Sequence[Fraction], area: Fraction) -> PieceShape:
    """What two pieces alike have in common: area and sides, to a thousandth of a mm."""
    return (round(area, 3), *sorted(round(side, 3) for side in sides))
