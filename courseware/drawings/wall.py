"""A wall to scale with one opening, in outline with a little hatching of bricks, for quantities."""

from __future__ import annotations

from fractions import Fraction

from courseware.banks.drawing_kinds import opening_in_wall
from courseware.drawings.dimension import Marks, across, box, plumb, room_for
from courseware.drawings.frame import View, framed, sizes
from courseware.drawings.lines import CUT, FINE, SYMBOL
from courseware.drawings.picture import Picture, Point
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (130.0, 62.0)  # mm of paper for the wall
_FACE = 0.95  # grey
_COURSE, _BRICK = 1.5, 4.5  # mm of paper: hatching stands for bricks and is not to scale
_PATCH = ((0, 4), (1, 3), (0, 2))  # bricks from the left, how many, course by course from below
_BEARING, _LINTEL = Fraction(150), Fraction(140)  # mm, each side and high: common practice, no source
_LINTEL_GREY = 0.7
_DOOR = Fraction(3, 4)  # an opening at least so much of the wall's height stands on the ground


def draw_wall(call: DrawingCall) -> Picture:
    """The picture of a wall `length` by `height` mm with its opening in the middle, none where a size of it is 0.

    The opening's own sizes stand above and to the left, the wall's below and to the right. An opening that stands as
    high as a door stands on the ground; a lintel is a heavy line over it. Raises `TradeError` where the opening is
    larger than the wall.
    """
    long, high, width, rise = (
        Fraction(call.figures[name]) for name in ("length", "height", "opening_width", "opening_height")
    )
    opening_in_wall(call.figures, call.format)
    view = View(one_to=one_to(long, high, _ROOM, least=20))
    marks: Marks = (
        CUT.stroke(view.box(0, 0, long, high), closed=True, fill=_FACE),
        *_hatching(view.at(0, 0), view.at(long, high)),
    )
    if width and rise:
        marks += _opening(call, view, ((long - width) / 2, _sill(high, rise)), (width, rise))
    return framed((*marks, *sizes(call, view, long, high, ("length", "height"))), call.alt, view.one_to)


def _sill(high: Fraction, rise: Fraction) -> Fraction:
    return Fraction(0) if rise >= high * _DOOR else (high - rise) / 2


def _opening(
    call: DrawingCall, view: View, corner: tuple[Fraction, Fraction], size: tuple[Fraction, Fraction]
) -> Marks:
    left, bottom = corner
    right, top = left + size[0], bottom + size[1]
    high = Fraction(call.figures["height"])
    marks: Marks = (
        *_lintel(view, (left, right), top, Fraction(call.figures["length"]), high),
        CUT.stroke(view.box(left, bottom, right, top), closed=True, fill=1.0),
    )
    if "opening_width" in call.labels:
        line = view.at(0, high)[1] - 4.5
        low = view.at(0, 0)[1] - view.at(0, high)[1] < room_for(call.labels.get("height"))  # its figure is beyond it
        marks += across(view.at(left, high), view.at(right, high), line, call.labels["opening_width"], before=low)
    if "opening_height" in call.labels:
        line = view.at(0, 0)[0] - 4
        ends, text = (view.at(0, bottom), view.at(0, top)), call.labels["opening_height"]
        marks += plumb(*ends, line, text)
    return marks


def _lintel(view: View, sides: tuple[Fraction, Fraction], top: Fraction, long: Fraction, high: Fraction) -> Marks:
    """What carries the wall over the opening, where there is any: with its bearings, as far as the wall reaches."""
    left, right = max(sides[0] - _BEARING, Fraction(0)), min(sides[1] + _BEARING, long)
    head = min(top + _LINTEL, high)
    if head <= top:
        return ()
    return (SYMBOL.stroke(view.box(left, top, right, head), closed=True, fill=_LINTEL_GREY),)


def _hatching(foot: Point, head: Point) -> Marks:
    """Patches of bricks at the lower left and the upper right, where the wall is large enough to hold them."""
    wide, high = head[0] - foot[0], foot[1] - head[1]
    if wide < 14 * _BRICK or high < 12 * _COURSE:
        return ()
    corners = ((foot[0] + 2, foot[1] - 2), (head[0] - 2 - 4.5 * _BRICK, head[1] + 2 + 3 * _COURSE))
    bricks = tuple(
        box(x, y - _COURSE, x + _BRICK, y)
        for left, bottom in corners
        for row, (skip, count) in enumerate(_PATCH)
        for n in range(count)
        for x, y in [(left + (skip + n + row % 2 / 2) * _BRICK, bottom - row * _COURSE)]
    )
    return (FINE.stroke(*bricks, closed=True),)
