"""A pier between two stopped ends, and a length of wall from a stopped end to a return, in bond."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bats, section, stopped, wholes
from courseware.drawings.dimension import Marks, across, lane, name, upright
from courseware.drawings.frame import View, datum, framed
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, height, pier, returned

_ROOM = (100.0, 62.0)  # mm of paper for the brickwork
_DATUM = ("datum: top", "of brick below")


def draw_pier(call: DrawingCall) -> Picture:
    """The picture of a pier of `bricks` by `courses`; its height is from the brick below to the last one's top."""
    wide = pier(Fraction(call.figures["bricks"]), call.format)
    view = _view(call, wide)
    return framed(_wall(call, wide, view, wide), call.alt, view.one_to, _kinds(call))


def draw_returned(call: DrawingCall) -> Picture:
    """The picture of `bricks` from a stopped end on the left to the face of a return on the right, cut through."""
    brick, courses = call.format, int(Fraction(call.figures["courses"]))
    wide = returned(Fraction(call.figures["bricks"]), brick)
    edge = wide + brick.width
    view = _view(call, edge)
    top = view.at(edge, height(courses, brick))
    marks: Marks = (
        *view.cut((section(row, brick, wide) for row in range(courses)), None),
        name((top[0], top[1] - 1.2), "return", anchor="end"),
    )
    return framed((*marks, *_wall(call, wide, view, edge)), call.alt, view.one_to, _kinds(call))


def length_of_wall(bricks: Fraction, courses: int, brick: Format) -> tuple[PlacedBrick, ...]:
    """Every brick of the length, its stopped end at 0: the last course of bricks ends a joint short of a return."""
    return tuple(laid for row in range(courses) for laid in stopped(bricks, row, brick))


def _kinds(call: DrawingCall) -> tuple[str, ...]:
    """Half bricks stand in every other course, or at one end of each."""
    whole = Fraction(call.figures["bricks"]).denominator == 1
    return ("whole",) if whole and int(Fraction(call.figures["courses"])) == 1 else ("whole", "half")


def _view(call: DrawingCall, wide: Fraction) -> View:
    high = height(int(Fraction(call.figures["courses"])), call.format)
    return View(one_to=one_to(wide, high, _ROOM, least=10))


def _wall(call: DrawingCall, wide: Fraction, view: View, edge: Fraction) -> Marks:
    """The bricks, the datum that they stand on and the dimensions; `edge` is where the drawn wall ends."""
    brick, courses = call.format, int(Fraction(call.figures["courses"]))
    laid = length_of_wall(Fraction(call.figures["bricks"]), courses, brick)
    marks: Marks = (
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), "half", joint=brick.bed),
        *datum(view.at(0, 0), view.at(edge, 0), *_DATUM if "height" in call.labels else ()),
    )
    if "width" in call.labels:
        line = view.at(0, 0)[1] + lane(call.labels)
        marks += across(view.at(0, 0), view.at(wide, 0), line, call.labels["width"])
    if "height" in call.labels:
        top, line = height(courses, brick), view.at(edge, 0)[0] + lane(call.labels)
        marks += upright(view.at(edge, 0), view.at(edge, top), line, call.labels["height"])
    return marks
