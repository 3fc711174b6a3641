"""A wall that must finish at a height already fixed: the courses that are laid, and the room left above them."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import bats, stopped, wholes
from courseware.drawings.dimension import Marks, beside, lane, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.hatching import hatching
from courseware.drawings.level_marks import NAMED, level
from courseware.drawings.lines import CUT, GROUND, HIDDEN
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (20.0, 44.0)  # mm of paper for the wall up to the fixed height
_CLOSE = 4.0  # mm of paper: a level nearer than this to the next has its name below its line
_BEARS = 3.0  # mm of paper that what stands over the wall runs past it
_DEEP = {"lintel": Fraction(140), "sill": Fraction(100)}  # mm: common practice, no source
_NAMES = {"lintel": "underside of lintel", "sill": "underside of sill", "line": "top of last brick"}


def draw_fixed_height(call: DrawingCall) -> Picture:
    """The picture of `laid` courses from the datum, what is to come dashed, and what is fixed `fixed` mm up over it.

    Heights are from the datum, the top of the brick below; `left` is from the last course laid to the fixed height.
    """
    brick, laid, fixed = call.format, int(Fraction(call.figures["laid"])), Fraction(call.figures["fixed"])
    over = str(call.figures["over"])
    view = View(one_to=one_to(brick.module, fixed, _ROOM, least=15))
    bricks = max(Fraction(1), Fraction(int(call.share * _ROOM[0] * view.one_to * 2 / brick.module), 2))
    right = bricks * brick.module - brick.perpend
    top = laid * brick.course
    below = (*stopped(bricks, -1, brick),)
    courses = tuple(one for row in range(laid) for one in stopped(bricks, row, brick))
    marks: Marks = (
        *view.bricks(below, None, joint=brick.bed),
        *view.bricks(wholes(courses), joint=brick.bed),
        *view.bricks(bats(courses), "half", joint=brick.bed),
        view.rule((0, top), (0, fixed), pen=HIDDEN),
        view.rule((right, top), (right, fixed), pen=HIDDEN),
        *_over(view, right, fixed, over),
        *_names(view, laid, top, fixed, over),
        *_heights(call, view, right, top, fixed),
    )
    halves = laid > 1 or (laid == 1 and bricks.denominator == 2)
    return framed(marks, call.alt, view.one_to, ("whole", "half") if halves else ())


def _over(view: View, right: Fraction, fixed: Fraction, over: str) -> Marks:
    """The lintel or sill that is there already; a line alone where the wall finishes under nothing."""
    past = _BEARS * view.one_to
    if over == "line":
        return (view.rule((-past, fixed), (float(right) + past, fixed), pen=GROUND),)
    outline = view.box(-past, fixed, float(right) + past, fixed + _DEEP[over])
    return CUT.stroke(outline, closed=True, fill=1.0), hatching(outline)


def _names(view: View, laid: int, top: Fraction, fixed: Fraction, over: str) -> Marks:
    marks = level(view.at(0, 0), "datum: brick below", below=True)
    if laid:
        close = view.at(0, top)[1] - view.at(0, fixed)[1] < _CLOSE
        marks += level(view.at(0, top), f"top of course {laid}", below=close)
    return (*marks, *level(view.at(0, fixed), _NAMES[over], NAMED + _BEARS))


def _heights(call: DrawingCall, view: View, right: Fraction, top: Fraction, fixed: Fraction) -> Marks:
    """The whole height nearest to the wall; further out the two that make it up, which may be short."""
    edge = view.at(right, 0)[0]
    marks: Marks = ()
    line = edge + _BEARS - 2
    if "fixed" in call.labels:
        line += lane(call.labels)
        marks += upright((edge, view.at(0, 0)[1]), (edge, view.at(0, fixed)[1]), line, call.labels["fixed"])
    for dimension, (bottom, head) in {"laid_height": (Fraction(0), top), "left": (top, fixed)}.items():
        if dimension in call.labels:
            ends = (edge, view.at(0, bottom)[1]), (edge, view.at(0, head)[1])
            marks += beside(*ends, line + lane(call.labels), call.labels[dimension])
    return marks
