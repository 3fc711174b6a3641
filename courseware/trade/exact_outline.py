"""Outlines whose sides are level, plumb or at 45 degrees, in a rectangle about the middle: exact, with the root of two.

`limits` are how far the rectangle reaches from the middle, along and up, in the parts of a mm that corners are told in.
"""

from __future__ import annotations

from courseware.trade.root_two import Surd, less, sign, times

Corner = tuple[Surd, Surd]
Corners = tuple[Corner, ...]


def within(corner: Corner, limits: tuple[int, int]) -> bool:
    """Whether a corner lies in the rectangle, or on its edge."""
    return all(
        sign((limit - a, -b)) >= 0 and sign((limit + a, b)) >= 0 for (a, b), limit in zip(corner, limits, strict=True)
    )


def clipped(corners: Corners, limits: tuple[int, int]) -> Corners:
    """What of a piece lies in the rectangle, side by side (Sutherland and Hodgman); no corners where nothing does.

    A side is level, plumb or at 45 degrees, so one that leaves the rectangle goes as far along its edge as it was deep.
    """
    for axis, limit, way in ((0, limits[0], 1), (1, limits[1], 1), (0, limits[0], -1), (1, limits[1], -1)):
        deep = [(limit - way * corner[axis][0], -way * corner[axis][1]) for corner in corners]
        signs = [sign(each) for each in deep]
        if min(signs, default=1) >= 0:
            continue
        kept: list[Corner] = []
        for place, here in enumerate(corners):
            after = place - len(corners) + 1
            if signs[place] >= 0:
                kept.append(here)
            if signs[place] * signs[after] < 0:
                along = here[1 - axis]
                lean = sign(less(corners[after][1 - axis], along)) * signs[place]
                met = along[0] + lean * deep[place][0], along[1] + lean * deep[place][1]
                kept.append(((way * limit, 0), met) if axis == 0 else (met, (way * limit, 0)))
        corners = tuple(kept)
    return corners


def twice_area(corners: Corners) -> Surd:
    """Twice the area, so that it has no halves; below nought where the corners run clockwise."""
    a = b = 0
    for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True):
        whole, root = less(times(x1, y2), times(x2, y1))
        a, b = a + whole, b + root
    return a, b


def sides_of(corners: Corners) -> list[Surd]:
    """The lengths of the sides: level or plumb as they are, at 45 degrees √2 times what they go along."""
    sides = []
    for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
        along, up = (_size(less(there[axis], here[axis])) for axis in (0, 1))
        sides.append((2 * along[1], along[0]) if along == up else max(along, up, key=any))
    return sides


def _size(value: Surd) -> Surd:
    return value if sign(value) >= 0 else (-value[0], -value[1])
