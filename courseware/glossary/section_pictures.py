"""A wall cut through: what stands out from it, what it stands on, and how its joints are finished."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import cos, pi, sin

from courseware.drawings.bond import section
from courseware.drawings.dimension import Marks
from courseware.drawings.frame import View
from courseware.drawings.picture import Point
from courseware.glossary.emphasis import Outline, dark, light, line, placed, thin
from courseware.trade import UK_METRIC

_VIEW = View(one_to=14)
_WIDE, _COURSE, _BED = float(UK_METRIC.width), float(UK_METRIC.course), float(UK_METRIC.bed)
_STEP = Fraction(25)  # mm a course in the pictures; limits are the trade core's, and the drawing's
_JOINTS = View(one_to=3)
_DEEP, _BRICK = 60.0, 28.0  # mm of joint, and of brick above and below it


def corbel() -> Marks:
    """Three courses, each further out than the one below."""
    steps = [_STEP * n for n in (0, 1, 2, 3, 3)]
    return _projecting(steps, (1, 2, 3))


def oversail() -> Marks:
    """A course that stands out from the one below, seen in its section."""
    return _projecting([Fraction(0), Fraction(0), Fraction(0), _STEP, Fraction(0)], (3,))


def plinth() -> Marks:
    return _projecting([2 * _STEP, 2 * _STEP, _STEP, Fraction(0), Fraction(0)], (0, 1, 2))


def foundation() -> Marks:
    """Concrete below the ground; its size is for the engineer's drawing."""
    wall = light(*(placed(_VIEW, section(row, UK_METRIC)) for row in range(4)))
    level = 2 * _COURSE
    left, right = (_VIEW.at(-160, level), _VIEW.at(0, level)), (_VIEW.at(_WIDE, level), _VIEW.at(_WIDE + 160, level))
    ground = thin(left, right)
    return (*wall, *ground, *dark(_VIEW.box(-130, -150, _WIDE + 130, 0)))


def flush_joint() -> Marks:
    return _joint([(0.0, 0.0), (0.0, _BED)])


def bucket_handle_joint() -> Marks:
    """A hollow pressed with a round iron."""
    half = _BED / 2
    return _joint([(-half * 0.7 * sin(pi * n / 8), half - half * cos(pi * n / 8)) for n in range(9)])


def weather_struck_joint() -> Marks:
    """In at the top, so that rain runs off."""
    return _joint([(0.0, 0.0), (-5.0, _BED)])


def recessed_joint() -> Marks:
    return _joint([(-6.0, 0.0), (-6.0, _BED)])


def _projecting(out: Sequence[Fraction], named: Sequence[int]) -> Marks:
    """Bricks of a half-brick wall in section, each so far out to the left, some of them named."""
    bricks = [placed(_VIEW, section(row, UK_METRIC, -far)) for row, far in enumerate(out)]
    behind = _VIEW.box(0, float(UK_METRIC.bed), _WIDE, len(out) * _COURSE)
    others = [brick for row, brick in enumerate(bricks) if row not in named]
    face = thin((_VIEW.at(0, 0), _VIEW.at(0, len(out) * _COURSE + 20)), dash=(1.2, 0.8))
    return (*light(behind, fill=1.0), *light(*others), *dark(*(bricks[row] for row in named)), *face)


def _joint(face: Sequence[Point]) -> Marks:
    """A bed joint in section between two bricks: its face through these points, from the bottom to the top."""
    above = _JOINTS.box(-_DEEP, _BED, 0, _BED + _BRICK)
    below = _JOINTS.box(-_DEEP, -_BRICK, 0, 0)
    mortar: Outline = (_JOINTS.at(-_DEEP, 0), *(_JOINTS.at(*point) for point in face), _JOINTS.at(-_DEEP, _BED))
    return (*light(above, below), *dark(mortar), *line(tuple(_JOINTS.at(*point) for point in face)))
