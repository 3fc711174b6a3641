"""The foot and the head of a wall, its middle broken out, with a height of its courses from a named datum."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import bats, stopped, wholes
from courseware.drawings.broken_height import GAP, BrokenHeight, reach
from courseware.drawings.dimension import Marks, lane, upright
from courseware.drawings.frame import framed
from courseware.drawings.gauge_rod import spans
from courseware.drawings.level_marks import level
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_SHOWN = 2  # courses at the foot, and at the head
_ROOM = (30.0, 44.0)  # mm of paper for the brickwork
_BRICKS = Fraction(2)
_NAMED = 36.0  # mm of paper for the longest of the datums' names
_SAID = {"height": "height", "face": "face height", "clear": "clear height"}
_LEVELS = {
    "height": ("top of brick below", "top of last brick"),
    "face": ("underside of first brick", "top of last brick"),
    "clear": ("top of brick below", "underside of brick above"),
}


def draw_heights(call: DrawingCall) -> Picture:
    """The picture of the first and last of `courses`; the height of `datum` is named where no figure of it stands."""
    brick, courses, datum = call.format, int(Fraction(call.figures["courses"])), str(call.figures["datum"])
    low, high = _SHOWN * brick.course, (courses - _SHOWN) * brick.course
    foot, head = -brick.course, (courses + 1) * brick.course
    kept = reach(low, high, head) - foot
    wide = _BRICKS * brick.module
    view = BrokenHeight(one_to=one_to(wide, kept, (_ROOM[0], _ROOM[1] - GAP)), low=low, high=high)
    shown = [*range(_SHOWN), *range(courses - _SHOWN, courses)]
    laid = tuple(one for row in shown for one in stopped(_BRICKS, row, brick))
    white = (*stopped(_BRICKS, -1, brick), *stopped(_BRICKS, courses, brick))
    right = wide - brick.perpend
    marks: Marks = (
        *view.bricks(white, None, joint=brick.bed),
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), "half", joint=brick.bed),
        *view.break_lines(0, right),
    )
    own = datum if datum == "height" else f"{datum}_height"
    labels = {own: _SAID[datum], **call.labels}
    line = view.at(right, 0)[0]
    for dimension, (bottom, top) in spans(courses, brick).items():
        if dimension in labels:
            line += lane(call.labels)
            marks += upright(view.at(right, bottom), view.at(right, top), line, labels[dimension])
        if dimension == own:
            marks += level(view.at(0, bottom), _LEVELS[datum][0], _NAMED, below=datum != "face")
            marks += level(view.at(0, top), _LEVELS[datum][1], _NAMED, below=datum == "clear")
    return framed(marks, call.alt, view.one_to, ("whole", "half"))
