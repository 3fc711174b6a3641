"""An opening as it is set out: its centre line on the sill course, and both reveals raised, nothing over them yet."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bats, wholes
from courseware.drawings.dimension import Marks, across, lane, plumb
from courseware.drawings.frame import View, framed
from courseware.drawings.level_marks import level
from courseware.drawings.lines import CENTRE
from courseware.drawings.opening import wall_round
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import height, opening

_ROOM = (56.0, 36.0)  # mm of paper for the brickwork
_OVER = 3.0  # mm of paper that the centre line runs past the wall


def draw_reveals(call: DrawingCall) -> Picture:
    """The picture of an opening of `bricks` whose reveals go up `courses` from the datum, the sill course."""
    brick, bricks, courses = call.format, Fraction(call.figures["bricks"]), int(Fraction(call.figures["courses"]))
    wide, top = opening(bricks, brick), height(courses, brick)
    laid = standing(bricks, courses, call)
    left, right, foot = min(b.left for b in laid), max(b.right for b in laid), min(b.bottom for b in laid)
    view = View(one_to=one_to(right - left, float(top) - foot, _ROOM, least=20))
    over = _OVER * view.one_to
    marks: Marks = (
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), "half", joint=brick.bed),
        view.rule((wide / 2, foot - over), (wide / 2, float(top) + over), pen=CENTRE),
        *level(view.at(left, 0), "datum", 13.0, below=True),
    )
    if "width" in call.labels:
        line = view.at(0, foot)[1] + lane(call.labels)
        marks += across(view.at(0, 0), view.at(wide, 0), line, call.labels["width"])
    if "height" in call.labels:
        line = view.at(right, 0)[0] + lane(call.labels)
        marks += plumb(view.at(right, 0), view.at(right, top), line, call.labels["height"])
    return framed(marks, call.alt, view.one_to, ("whole", "half"))


def standing(bricks: Fraction, courses: int, call: DrawingCall) -> tuple[PlacedBrick, ...]:
    """Every brick drawn: the wall up to the sill course, whose top is at 0, and the two reveals on it."""
    top = float(height(courses, call.format))
    return tuple(one for one in wall_round(bricks, courses, call.format) if one.top <= top)
