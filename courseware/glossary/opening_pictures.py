"""An opening in a wall, seen a little from one side so that its depth shows, with what stands round it."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import toothed
from courseware.drawings.dimension import Marks
from courseware.drawings.frame import View
from courseware.drawings.picture import Point
from courseware.glossary.emphasis import Outline, dark, hollow, light, line, placed, thin
from courseware.trade import UK_METRIC, clear_height, opening

_VIEW = View(one_to=28)
_WIDE = 2  # bricks of the opening
_BELOW, _CLEAR, _ABOVE = 2, 6, 2  # courses
_LEFT = float(UK_METRIC.module) * Fraction(3, 2)
_OPEN, _RISE = float(opening(_WIDE, UK_METRIC)), float(clear_height(_CLEAR, UK_METRIC))
_FOOT = _BELOW * float(UK_METRIC.course)
_HEAD, _RIGHT = _FOOT + _RISE, _LEFT + _OPEN
_ASIDE, _DOWN = 95.0, 60.0  # mm that the back of the opening stands to the right, and lower or higher
_FRAME = 0.6  # of the depth, where a frame would stand
_BEARING, _LINTEL = 150.0, 140.0  # mm: common practice, no source


def opening_itself() -> Marks:
    return (*_wall(), *hollow(_hole()))


def reveal() -> Marks:
    """From the face back to the frame."""
    return (*_wall(), *_depth(), *dark(_left_side(0, _FRAME)))


def jamb() -> Marks:
    """The whole side, from the face to the back."""
    return (*_wall(), *_depth(), *dark(_left_side(0, 1)))


def head() -> Marks:
    return (*_wall(), *light(_hole(), fill=1.0), *line((_VIEW.at(_LEFT, _HEAD), _VIEW.at(_RIGHT, _HEAD))))


def soffit() -> Marks:
    """The underside, seen from below."""
    back = (
        _VIEW.at(_LEFT, _HEAD), _VIEW.at(_RIGHT, _HEAD),
        _VIEW.at(_RIGHT - _ASIDE, _HEAD - _DOWN), _VIEW.at(_LEFT + _ASIDE, _HEAD - _DOWN),
    )  # fmt: skip
    return (*_wall(), *light(_hole(), fill=1.0), *dark(back))


def lintel() -> Marks:
    return (*_wall(), *light(_hole(), fill=1.0), *dark(_lintel(_LEFT - _BEARING, _RIGHT + _BEARING)))


def bearing() -> Marks:
    ends = _lintel(_LEFT - _BEARING, _LEFT), _lintel(_RIGHT, _RIGHT + _BEARING)
    whole = light(_lintel(_LEFT - _BEARING, _RIGHT + _BEARING), fill=1.0)
    return (*_wall(), *light(_hole(), fill=1.0), *whole, *dark(*ends))


def sill() -> Marks:
    """Bricks on edge below the opening."""
    high, each = float(UK_METRIC.height), float(UK_METRIC.height + UK_METRIC.perpend)
    count = int((_OPEN + float(UK_METRIC.perpend)) / each)
    pitch = (_OPEN + float(UK_METRIC.perpend)) / count
    foot = _FOOT - float(UK_METRIC.width)
    row = tuple(_VIEW.box(_LEFT + n * pitch, foot, _LEFT + n * pitch + high, _FOOT) for n in range(count))
    return (*_wall(), *light(_hole(), fill=1.0), *dark(*row))


def _hole() -> Outline:
    return _VIEW.box(_LEFT, _FOOT, _RIGHT, _HEAD)


def _lintel(left: float, right: float) -> Outline:
    return _VIEW.box(left, _HEAD, right, _HEAD + _LINTEL)


def _left_side(near: float, far: float) -> Outline:
    """The side on the left, from one share of its depth to another."""
    return _side(near, _FOOT), _side(far, _FOOT), _side(far, _HEAD), _side(near, _HEAD)


def _side(share: float, up: float) -> Point:
    return _VIEW.at(_LEFT + share * _ASIDE, up + (_DOWN * share if up == _FOOT else 0))


def _depth() -> Marks:
    """The opening with its side and its foot running back, and the frame's line."""
    frame = (_side(_FRAME, _FOOT), _side(_FRAME, _HEAD))
    foot = (_VIEW.at(_LEFT, _FOOT), _VIEW.at(_RIGHT, _FOOT), _VIEW.at(_RIGHT, _FOOT + _DOWN), _side(1, _FOOT))
    return (*light(_hole(), fill=1.0), *light(foot, _left_side(0, 1), fill=0.98), *thin(frame))


def _wall() -> Marks:
    """The wall round the opening, in stretcher bond; what lies behind the opening is drawn over."""
    rows = [toothed(5, row, UK_METRIC) for row in range(_BELOW + _CLEAR + _ABOVE)]
    laid = [brick for row in rows for brick in row]
    return light(*(placed(_VIEW, brick) for brick in laid))
