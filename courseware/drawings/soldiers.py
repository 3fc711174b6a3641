"""A soldier course under a course of stretchers: both ends, the middle broken out."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.broken import break_lines, broken, one_piece, pieces_of, stretchers
from courseware.drawings.frame import framed, sizes
from courseware.drawings.lines import GROUND
from courseware.drawings.picture import Picture
from courseware.papers.sheets import DrawingCall
from courseware.trade import soldiers

_ROOM = (120.0, 45.0)  # mm of paper for the brickwork


def draw_soldiers(call: DrawingCall) -> Picture:
    """The picture of a soldier course `length` mm long, brick at both ends, on the line of its lintel or batten."""
    brick = call.format
    run = soldiers(Fraction(call.figures["length"]), brick)
    head = brick.length + brick.course
    view = broken(run, brick.height, head, _ROOM)
    marks = (
        *view.bricks(view.shown(pieces_of(run, brick.height, Fraction(0), brick.length)), "soldier", joint=run.joint),
        *view.bricks(stretchers(view, brick.length + brick.bed, brick), kind=None, joint=brick.bed),
        view.rule((0, 0), (view.kept, 0), pen=GROUND),
        view.rule((view.length - view.kept, 0), (view.length, 0), pen=GROUND),
        *break_lines(view, Fraction(0), head),
        *one_piece(call, view, brick.height, head),
        *sizes(call, view, view.length, brick.length, ("length", "height")),
    )
    return framed(marks, call.alt, view.one_to)
