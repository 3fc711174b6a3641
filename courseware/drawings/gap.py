"""A gap in a wall to be filled: its edges and what is over it, the wall round it broken off and no brick drawn.

How many bricks and courses fill it is for the learner to find, so nothing beside it can be counted.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, across, lane, plumb
from courseware.drawings.frame import View, framed
from courseware.drawings.hatching import hatching
from courseware.drawings.lines import CUT, REFERENCE, SYMBOL
from courseware.drawings.picture import Picture, Point, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (58.0, 30.0)  # mm of paper for the gap
_RIM = 5.0  # mm of paper of the wall round it
_FACE, _LINTEL_GREY = 0.92, 0.7
_LINTEL, _BEARING = Fraction(140), Fraction(150)  # mm, high and on the wall each side: common practice, no source
_ZIG = 1.2  # mm of paper: half the height of a break line's zigzag


def draw_gap(call: DrawingCall) -> Picture:
    """The picture of a gap `width` by `height` mm, brick to brick and from the brick below to the brick above."""
    wide, high = Fraction(call.figures["width"]), Fraction(call.figures["height"])
    view = View(one_to=one_to(wide, high, _ROOM, least=15))
    rim = _RIM * view.one_to
    bearing = min(float(_BEARING), rim * 0.7)
    outer = view.box(-rim, -rim, float(wide) + rim, float(high) + rim)
    lintel = view.box(-bearing, high, float(wide) + bearing, float(high) + min(float(_LINTEL), rim * 0.7))
    marks: Marks = (
        Stroke(outlines=(outer,), closed=True, weight=0, fill=_FACE),
        REFERENCE.stroke(*_edges(outer)),
        CUT.stroke(view.box(0, 0, wide, high), closed=True, fill=1.0),
        SYMBOL.stroke(lintel, closed=True, fill=_LINTEL_GREY),
        hatching(lintel),
    )
    return framed((*marks, *_sizes(call, view, (wide, high), rim)), call.alt, view.one_to)


def _sizes(call: DrawingCall, view: View, size: tuple[Fraction, Fraction], rim: float) -> Marks:
    """Width below, height to the right, each off the wall that is drawn round the gap."""
    wide, high = size
    marks: Marks = ()
    if "width" in call.labels:
        line = view.at(0, -rim)[1] + lane(call.labels)
        marks += across(view.at(0, -rim), view.at(wide, -rim), line, call.labels["width"])
    if "height" in call.labels:
        edge = view.at(float(wide) + rim, 0)[0]
        marks += plumb(
            (edge, view.at(0, 0)[1]), (edge, view.at(0, high)[1]), edge + lane(call.labels), call.labels["height"]
        )
    return marks


def _edges(corners: tuple[Point, ...]) -> tuple[tuple[Point, ...], ...]:
    """The four sides with a zigzag in each: the wall goes on."""
    return tuple(_broken(start, end) for start, end in zip(corners, (*corners[1:], corners[0]), strict=True))


def _broken(start: Point, end: Point) -> tuple[Point, ...]:
    (x1, y1), (x2, y2) = start, end
    long = abs(x2 - x1) + abs(y2 - y1)
    along, aside = ((x2 - x1) / long, (y2 - y1) / long), ((y1 - y2) / long, (x2 - x1) / long)
    middle = (x1 + x2) / 2, (y1 + y2) / 2

    def off(by: float, out: float) -> Point:
        return middle[0] + by * along[0] + out * aside[0], middle[1] + by * along[1] + out * aside[1]

    return start, off(-_ZIG, 0), off(-_ZIG / 2, -_ZIG), off(_ZIG / 2, _ZIG), off(_ZIG, 0), end
