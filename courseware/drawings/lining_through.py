"""An old wall with new work toothed into it, course to course, and ten of the new bricks stacked dry."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from courseware.drawings.bond import bed_of, run
from courseware.drawings.dimension import NAME, Marks, beside, lane, name, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_COURSES, _STACK = 7, 10  # courses drawn of either wall; bricks in the stack
_MEASURED = 4  # courses, from the top of the first that is drawn
_ROOM = (28.0, 40.0)  # mm of paper for both walls; for the stack
_OLD_BED = Fraction(10)  # as drawn: the old bricks are not measured
_NEXT = 12.0  # mm of paper between what is measured at the walls and the stack


def draw_lining_through(call: DrawingCall) -> Picture:
    """The picture of both walls at a gauge of `gauge` mm, new bricks `brick` mm high on the beds that are left."""
    gauge, high = Fraction(call.figures["gauge"]), Fraction(call.figures["brick"])
    old = replace(call.format, height=gauge - _OLD_BED, bed=_OLD_BED)
    new = replace(call.format, height=high, bed=gauge - high)
    wide = 2 * new.module
    view = View(one_to=one_to(wide + new.module, _STACK * high, _ROOM, least=15))
    rows = range(_COURSES)
    joint = new.module
    left = tuple(
        one for row in rows for one in run(1 + Fraction(row % 2, 2), Fraction(0), row, old, half_first=row % 2 == 1)
    )
    right = tuple(one for row in rows for one in run(Fraction(3 - row % 2, 2), joint + row % 2 * new.half, row, new))
    end = joint + Fraction(3, 2) * new.module - new.perpend
    marks: Marks = (
        *view.bricks(left, "old", joint=new.bed),
        *view.bricks(right, joint=new.bed),
        name((view.at(joint, 0)[0] - 1, view.at(0, 0)[1] + NAME + 1), "old", "end"),
        name((view.at(joint, 0)[0] + 1, view.at(0, 0)[1] + NAME + 1), "new"),
    )
    first = bed_of(0, new)[1]
    if "four" in call.labels:
        last = first + float(_MEASURED * gauge)
        marks += beside(view.at(0, first), view.at(0, last), view.at(0, 0)[0] - 4, call.labels["four"])
    if "bed" in call.labels:
        marks += beside(
            view.at(end, 2 * gauge), view.at(end, 2 * gauge + new.bed), view.at(end, 0)[0] + 4, call.labels["bed"]
        )
    return framed((*marks, *_stack(call, view, end, high)), call.alt, view.one_to)


def _stack(call: DrawingCall, view: View, end: Fraction, high: Fraction) -> Marks:
    dry = replace(call.format, height=high, bed=Fraction(0))
    start = end + Fraction(_NEXT + (24 if "bed" in call.labels else 0)) * view.one_to
    laid = tuple(one for row in range(_STACK) for one in run(Fraction(1), start, row, dry))
    top = view.at(start, _STACK * high)
    marks: Marks = (
        *view.bricks(laid, joint=Fraction(0)),
        name((view.at(start, 0)[0], view.at(0, 0)[1] + NAME + 1), "ten, dry"),
    )
    if "ten" in call.labels:
        corner = view.at(start + call.format.length, 0)
        marks += upright(corner, (corner[0], top[1]), corner[0] + lane(call.labels), call.labels["ten"])
    return marks
