"""Walls from above: how thick they are, how they turn, what stands against them, and a wall of two leaves."""

from __future__ import annotations

from courseware.drawings.dimension import Marks
from courseware.drawings.frame import View
from courseware.glossary.emphasis import Outline, dark, hollow, light, line
from courseware.trade import UK_METRIC

_VIEW = View(one_to=20)
_LONG, _WIDE = float(UK_METRIC.length), float(UK_METRIC.width)
_MODULE, _HALF, _JOINT = float(UK_METRIC.module), float(UK_METRIC.half), float(UK_METRIC.perpend)
_CAVITY = 100.0  # mm: what a drawing says stands over this, common practice, no source


def half_brick_wall() -> Marks:
    return dark(*_stretchers(4))


def one_brick_wall() -> Marks:
    return dark(*(_VIEW.box(n * _HALF, 0, n * _HALF + _WIDE, _LONG) for n in range(8)))


def quoin() -> Marks:
    """The brick that turns the corner."""
    corner, *others = _turning()
    return (*light(*others), *dark(corner))


def returned() -> Marks:
    """The leg that runs back from the face."""
    return (*light(*_stretchers(4)), *dark(*_leg(2)))


def attached_pier() -> Marks:
    left = 1.5 * _MODULE
    bound = [_VIEW.box(left + n * _HALF, -_HALF, left + n * _HALF + _WIDE, -_JOINT) for n in range(2)]
    return (*light(*_stretchers(4)), *dark(*bound))


def pier() -> Marks:
    """One brick and a half each way, common practice, no source: whole bricks round a half in the middle."""
    side = 1.5 * _MODULE - _JOINT
    whole = _VIEW.box(0, 0, _LONG, _WIDE), _VIEW.box(side - _LONG, side - _WIDE, side, side)
    turned = _VIEW.box(side - _WIDE, 0, side, _LONG), _VIEW.box(0, side - _LONG, _WIDE, side)
    middle = _VIEW.box(_HALF, _HALF, side - _HALF, side - _HALF)
    return dark(*whole, *turned, middle)


def cavity() -> Marks:
    return (*_two_leaves(), *hollow(_VIEW.box(0, _WIDE, 4 * _MODULE - _JOINT, _WIDE + _CAVITY)))


def leaf() -> Marks:
    return (*_two_leaves(), *dark(*_stretchers(4)))


def wall_tie() -> Marks:
    """Laid in the beds of both leaves, a drip in its middle."""
    ties = []
    for x in (1.25 * _MODULE, 3.25 * _MODULE):
        middle = _WIDE + _CAVITY / 2
        points = ((x, 50), (x, middle - 12), (x + 14, middle), (x, middle + 12), (x, _WIDE + _CAVITY + 52))
        ties.append(tuple(_VIEW.at(*point) for point in points))
    return (*_two_leaves(), *line(*ties))


def _stretchers(count: int, up: float = 0.0) -> tuple[Outline, ...]:
    return tuple(_VIEW.box(n * _MODULE, up, n * _MODULE + _LONG, up + _WIDE) for n in range(count))


def _leg(count: int) -> tuple[Outline, ...]:
    """Bricks that run back behind the left end of a face."""
    return tuple(_VIEW.box(0, _HALF + n * _MODULE, _WIDE, _HALF + n * _MODULE + _LONG) for n in range(count))


def _turning() -> tuple[Outline, ...]:
    return (*_stretchers(4), *_leg(2))


def _two_leaves() -> Marks:
    return light(*_stretchers(4), *_stretchers(4, _WIDE + _CAVITY))
