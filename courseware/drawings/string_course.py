"""A projecting course high in a wall between two stopped ends, the wall in outline and the course in bricks."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import bats, stopped, wholes
from courseware.drawings.dimension import Marks, across, lane, name, plumb
from courseware.drawings.frame import View, framed
from courseware.drawings.level_marks import level
from courseware.drawings.lines import CUT, GROUND
from courseware.drawings.picture import Label, Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import height, pier

_ROOM = (62.0, 32.0)  # mm of paper for the wall
_OVER = 3  # courses over the projecting one
_FACE = 0.95  # grey
_ROUND = 1.5  # mm of paper round the course's name


def draw_string_course(call: DrawingCall) -> Picture:
    """The picture of course `course`, `bricks` long; its height is from the datum to its top."""
    brick, bricks, course = call.format, Fraction(call.figures["bricks"]), int(Fraction(call.figures["course"]))
    long, top = pier(bricks, brick), height(course, brick)
    head = height(course + _OVER, brick)
    view = View(one_to=one_to(long, head, _ROOM, least=20))
    laid = stopped(bricks, course - 1, brick)
    marks: Marks = (
        CUT.stroke(view.box(0, 0, long, head), closed=True, fill=_FACE),
        *view.bricks((*wholes(laid), *bats(laid)), "out", joint=brick.perpend),
        _named(f"course {course}", view, long, laid[0].bottom),
        view.rule((-5 * brick.width, 0), (long + 5 * brick.width, 0), pen=GROUND),
        *level(view.at(-5 * brick.width, 0), "datum", 13.0, below=True),
    )
    if "length" in call.labels:
        line = view.at(0, 0)[1] + lane(call.labels)
        marks += across(view.at(0, 0), view.at(long, 0), line, call.labels["length"])
    if "height" in call.labels:
        line = view.at(long, 0)[0] + lane(call.labels)
        marks += plumb(view.at(long, 0), view.at(long, top), line, call.labels["height"])
    return framed(marks, call.alt, view.one_to)


def _named(says: str, view: View, long: Fraction, low: Fraction | float) -> Label:
    """The name of the course under it on the wall, or beside it where the wall is narrower than the name."""
    (left, foot), (right, _) = view.at(0, low), view.at(long, low)
    under = name(((left + right) / 2, foot + 4.0), says, "middle")
    return under if under.width + _ROUND <= right - left else name((left - _ROUND, foot), says, "end")
