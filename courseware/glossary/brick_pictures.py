"""A brick seen from its front, its right end and its top, its faces and edges, and the pieces that are cut from it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from courseware.drawings.dimension import Marks
from courseware.drawings.picture import Point
from courseware.glossary.emphasis import Outline, dark, light, line, thin
from courseware.trade import UK_METRIC, mitre_template, queen_closer

_LONG, _DEEP, _HIGH = (float(size) for size in (UK_METRIC.length, UK_METRIC.width, UK_METRIC.height))
_ONE_TO, _ASIDE, _BACK = 5.5, 0.5, 0.4  # scale; how far a mm of depth goes to the right and up
_FROG = 0.16  # of a brick's sizes, left round its frog
_DASH = (1.2, 0.8)

Plan = Sequence[tuple[float, float]]  # corners from above, anticlockwise from the front left: along, and back
_WHOLE: Plan = ((0, 0), (_LONG, 0), (_LONG, _DEEP), (0, _DEEP))


def stretcher_face() -> Marks:
    return (*_solid(_WHOLE), *dark(_side((0, 0), (_LONG, 0))))


def header_face() -> Marks:
    return (*_solid(_WHOLE), *dark(_side((_LONG, 0), (_LONG, _DEEP))))


def bed_face() -> Marks:
    return (*_solid(_WHOLE), *dark(_top(_WHOLE)))


def arris() -> Marks:
    front, right, back, left = _top(_WHOLE)
    foot = _at(_LONG, 0, 0)
    return (*_solid(_WHOLE), *line((left, front, right, back), (right, foot)))


def frog() -> Marks:
    aside, back = _LONG * _FROG, _DEEP * _FROG
    inner = ((aside, back), (_LONG - aside, back), (_LONG - aside, _DEEP - back), (aside, _DEEP - back))
    return (*_solid(_WHOLE), *dark(_top(inner)))


def bat() -> Marks:
    return _cut(_along(UK_METRIC.half - UK_METRIC.perpend))


def three_quarter_bat() -> Marks:
    return _cut(_along(UK_METRIC.module * Fraction(3, 4) - UK_METRIC.perpend))


def closer() -> Marks:
    wide = float(queen_closer(UK_METRIC))
    return _cut(((0, 0), (_LONG, 0), (_LONG, wide), (0, wide)))


def king_closer() -> Marks:
    """From the middle of an end to the middle of a side, common practice, no source."""
    return _cut(((0, 0), (_LONG, 0), (_LONG, _DEEP / 2), (_LONG / 2, _DEEP), (0, _DEEP)))


def mitred_bat() -> Marks:
    """Its face as it shows in the run, from the template, in the brick's own end."""
    outline = [(float(x), float(y)) for x, y in mitre_template(UK_METRIC).outline]
    left, foot = min(x for x, _ in outline), min(y for _, y in outline)
    ghost = ((left, foot), (left + _HIGH, foot), (left + _HIGH, foot + _DEEP), (left, foot + _DEEP))
    flat = [tuple((x / 4, -y / 4) for x, y in corners) for corners in (ghost, outline)]
    return (*thin((*flat[0], flat[0][0]), dash=_DASH), *dark(flat[1]))


def _along(length: Fraction) -> Plan:
    long = float(length)
    return ((0, 0), (long, 0), (long, _DEEP), (0, _DEEP))


def _cut(piece: Plan) -> Marks:
    """A piece, dark, in the whole brick, dashed."""
    whole = (_top(_WHOLE), _side((0, 0), (_LONG, 0)), _side((_LONG, 0), (_LONG, _DEEP)))
    ghost = thin(*((*face, face[0]) for face in whole), dash=_DASH)
    return (*ghost, *dark(*_faces(piece)))


def _solid(plan: Plan) -> Marks:
    return light(*_faces(plan))


def _faces(plan: Plan) -> tuple[Outline, ...]:
    """The faces of a piece that are seen: those that look to the front or to the right, and its top."""
    sides = zip(plan, (*plan[1:], plan[0]), strict=True)
    seen = [side for side in sides if _looks_here(*side)]
    return (*(_side(a, b) for a, b in seen), _top(plan))


def _looks_here(a: tuple[float, float], b: tuple[float, float]) -> bool:
    outward = b[1] - a[1], a[0] - b[0]
    return outward[0] * _ASIDE - outward[1] > 0


def _side(a: tuple[float, float], b: tuple[float, float]) -> Outline:
    return _at(*a, 0), _at(*b, 0), _at(*b, _HIGH), _at(*a, _HIGH)


def _top(plan: Plan) -> Outline:
    return tuple(_at(along, back, _HIGH) for along, back in plan)


def _at(along: float, back: float, up: float) -> Point:
    """The place on paper of a point of the brick."""
    return (along + _ASIDE * back) / _ONE_TO, -(up + _BACK * back) / _ONE_TO
