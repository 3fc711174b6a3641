"""A panel in stack bond to scale: its outline, and bricks in one corner with every perpend over the last."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import run
from courseware.drawings.dimension import Marks
from courseware.drawings.frame import View, framed, sizes
from courseware.drawings.lines import CUT
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, face_height, pier, stack_bond

_ROOM = (110.0, 60.0)  # mm of paper for the panel


def draw_stack_bond(call: DrawingCall) -> Picture:
    """The picture of a panel of `bricks` by `courses`, brick at all its edges; what is to be counted is not drawn."""
    brick, bricks, courses = call.format, Fraction(call.figures["bricks"]), int(Fraction(call.figures["courses"]))
    stack_bond(bricks, courses, brick)  # refuses half bricks
    wide, high = pier(bricks, brick), face_height(courses, brick)
    view = View(one_to=one_to(wide, high, _ROOM))
    marks: Marks = (CUT.stroke(view.box(0, 0, wide, high), closed=True),)
    for row in range(corner_of(courses)):
        laid = run(Fraction(corner_of(int(bricks))), Fraction(0), row, brick)
        marks += View(one_to=view.one_to, origin=_lowered(view, brick)).bricks(laid, joint=brick.bed)
    return framed((*marks, *sizes(call, view, wide, high)), call.alt, view.one_to)


def corner_of(count: int) -> int:
    """How many of so many bricks or courses are drawn: fewer than half, so that nothing can be counted."""
    return max(1, min(6, (count - 1) // 2))


def _lowered(view: View, brick: Format) -> tuple[float, float]:
    """The datum of bricks laid on a bed, where the panel's outline has the first brick's underside at nought."""
    return view.origin[0], view.origin[1] + float(brick.bed) / view.one_to
