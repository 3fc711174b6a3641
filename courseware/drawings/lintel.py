"""The head of an opening with its lintel: what the lintel bears on at both ends, and the wall that it carries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, run
from courseware.drawings.broken import break_line
from courseware.drawings.dimension import LANE, Marks, across, name
from courseware.drawings.frame import View, framed
from courseware.drawings.lines import BREAK, CUT, SEEN
from courseware.drawings.opening import jambs
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, opening

_ROOM = (84.0, 40.0)  # mm of paper for the brickwork
LINTEL = 0.8  # grey
_BELOW, _HIGH, _ABOVE = 4, 2, 2  # courses below the lintel, as high as it, and over it
_BESIDE = Fraction(2)  # bricks beside the opening


def draw_lintel(call: DrawingCall) -> Picture:
    """The picture of a lintel over an opening of `bricks` that bears `bearing` mm on the wall at either end.

    The left reveal is at 0, the underside of the lintel at 0. The wall goes on on all sides; the opening goes down.
    """
    brick, bricks, bearing = call.format, Fraction(call.figures["bricks"]), Fraction(call.figures["bearing"])
    wide = opening(bricks, brick)
    side = _BESIDE * brick.module
    courses = _BELOW + _HIGH + _ABOVE
    view = View(one_to=one_to(wide + 2 * side, courses * brick.course, _ROOM, least=10))
    foot, head = -_BELOW * brick.course, _HIGH * brick.course - brick.bed
    beam = view.box(-bearing, 0, wide + bearing, head)
    laid = brickwork(bricks, bearing, brick)
    marks: Marks = (
        *view.bricks(laid, joint=brick.bed),
        SEEN.stroke(beam, closed=True, fill=LINTEL),
        view.rule((0, foot), (0, 0), pen=CUT),
        view.rule((wide, 0), (wide, foot), pen=CUT),
    )
    says = name((view.at(wide / 2, 0)[0], view.at(0, foot)[1] - 1.5), "opening", anchor="middle")
    if says.width < view.at(wide, 0)[0] - view.at(0, 0)[0] and says.size + 1.5 < view.at(0, foot)[1] - view.at(0, 0)[1]:
        marks += (says,)
    low = view.at(0, foot)[1] + 1.2
    ends = ((view.at(-side, 0)[0], view.at(0, 0)[0]), (view.at(wide, 0)[0], view.at(wide + side, 0)[0]))
    marks += (BREAK.stroke(*(break_line((a, low), (b, low)) for a, b in ends)),)
    if "opening" in call.labels:
        marks += across(view.at(0, foot), view.at(wide, foot), low + 8, call.labels["opening"])
    if "bearing" in call.labels:
        left, reveal = view.at(-bearing, foot), view.at(0, foot)
        marks += across(left, reveal, low + 8, call.labels["bearing"], before=True)
    if "length" in call.labels:
        top = view.at(0, (_HIGH + _ABOVE) * brick.course)[1]
        left, right = (view.at(x, head) for x in (-bearing, wide + bearing))
        marks += across((left[0], top), (right[0], top), top - LANE + 5, call.labels["length"])
    return framed(marks, call.alt, view.one_to)


def brickwork(bricks: Fraction, bearing: Fraction, brick: Format) -> tuple[PlacedBrick, ...]:
    """The bricks that are seen, in bond from the reveals: jambs, beside the lintel as it leaves them, and over it."""
    wide, laid = opening(bricks, brick), list[PlacedBrick]()
    ends = float(-bearing - brick.perpend), float(wide + bearing + brick.perpend)
    for row in range(-_BELOW, _HIGH + _ABOVE):
        left, right = jambs(bricks, row)
        start = brick.perpend - left * brick.module
        if row < 0:
            course = (*run(left, start, row, brick), *run(right, wide, row, brick, half_first=right != _BESIDE))
        else:
            course = run(left + bricks + right, start, row, brick)
        if 0 <= row < _HIGH:
            course = tuple(_beside(course, ends))
        laid += course
    down = float(brick.bed)
    return tuple(replace(one, bottom=one.bottom - down, top=one.top - down) for one in laid)


def _beside(course: Iterable[PlacedBrick], ends: tuple[float, float]) -> Iterator[PlacedBrick]:
    """What of a course stands clear of the lintel at either end."""
    left, right = ends
    for one in course:
        if one.left < left:
            yield replace(one, right=min(one.right, left))
        if one.right > right:
            yield replace(one, left=max(one.left, right))
