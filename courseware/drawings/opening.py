"""An opening in its wall, brick by brick.

The bond is set from the reveals: a stretcher ends at the left reveal in one course, a half brick in the next. An
opening of whole bricks has the same at the right reveal; one of so many and a half has them the other way round, a half
brick facing a stretcher. Set out so, the wall below and above carries its bond across in stretchers alone, and no
broken bond is wanted for any size in half bricks.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bats, run, wholes
from courseware.drawings.dimension import Marks, across, lane, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.lines import GROUND
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, clear_height, opening

_BELOW = _ABOVE = 2  # courses
_SIDE = Fraction(2)  # bricks beside the opening
_ROOM = (150.0, 80.0)  # mm of paper for the brickwork
_BEARING = 150  # mm of lintel on the wall each side: common practice, no source


def draw_opening(call: DrawingCall) -> Picture:
    """The picture of an opening of `bricks` by `courses`; its height is clear, brick below to brick above."""
    brick, bricks, courses = call.format, Fraction(call.figures["bricks"]), int(Fraction(call.figures["courses"]))
    wide, clear = opening(bricks, brick), clear_height(courses, brick)
    laid = wall_round(bricks, courses, brick)
    left, right = min(b.left for b in laid), max(b.right for b in laid)
    foot, head = min(b.bottom for b in laid), max(b.top for b in laid)
    view = View(one_to=one_to(right - left, head - foot, _ROOM, least=20))
    marks: Marks = (
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), "half", joint=brick.bed),
        view.rule((-_BEARING, clear), (wide + _BEARING, clear), pen=GROUND),
    )
    if "width" in call.labels:
        line = view.at(0, foot)[1] + lane(call.labels)
        marks += across(view.at(0, foot), view.at(wide, foot), line, call.labels["width"])
    if "height" in call.labels:
        line = view.at(right, 0)[0] + lane(call.labels)
        marks += upright(view.at(right, 0), view.at(right, clear), line, call.labels["height"])
    return framed(marks, call.alt, view.one_to, ("whole", "half"))


def wall_round(bricks: Fraction, courses: int, brick: Format) -> tuple[PlacedBrick, ...]:
    """Every brick drawn: the courses below, the jambs on either side of the opening, the courses above.

    The left reveal is at 0, the top of the brick below at 0. The wall goes on, so both ends are left toothed.
    """
    laid: list[PlacedBrick] = []
    for row in range(-_BELOW, courses + _ABOVE):
        left, right = jambs(bricks, row)
        start = brick.perpend - left * brick.module
        if 0 <= row < courses:
            laid += run(left, start, row, brick)
            laid += run(right, opening(bricks, brick), row, brick, half_first=right != _SIDE)
        else:
            laid += run(left + bricks + right, start, row, brick)
    return tuple(laid)


def jambs(bricks: Fraction, row: int) -> tuple[Fraction, Fraction]:
    """Bricks of the course to the left and to the right of the opening: half a brick less in every other course."""
    short = _SIDE - Fraction(1, 2)
    left, other = (_SIDE, short) if row % 2 == 0 else (short, _SIDE)
    return left, left if bricks.denominator == 1 else other
