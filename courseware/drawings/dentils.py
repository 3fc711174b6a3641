"""A dentil course between two courses of stretchers: every other header stands out; the middle is broken out."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.broken import break_lines, broken, one_piece, pieces_of, stretchers
from courseware.drawings.frame import framed, sizes
from courseware.drawings.picture import Picture
from courseware.papers.sheets import DrawingCall
from courseware.trade import Run, dentils

_ROOM = (125.0, 45.0)  # mm of paper for the brickwork


def draw_dentils(call: DrawingCall) -> Picture:
    """The picture of a dentil course `length` mm long, a header that stands out at both ends."""
    brick = call.format
    out, back = dentils(Fraction(call.figures["length"]), brick)
    run = Run(pieces=out + back, pitch=brick.half, joint=brick.perpend)
    foot, head = -brick.course, brick.course + brick.height
    view = broken(run, brick.width, head - foot, _ROOM)
    headers = pieces_of(run, brick.width, Fraction(0), brick.height)
    marks = (
        *view.bricks(stretchers(view, foot, brick), kind=None, joint=brick.bed),
        *view.bricks(view.shown(headers[1::2]), "whole", joint=brick.perpend),
        *view.bricks(stretchers(view, brick.course, brick), kind=None, joint=brick.bed),
        *view.bricks(view.shown(headers[::2]), "out", joint=brick.perpend),
        *break_lines(view, foot, head),
        *one_piece(call, view, brick.width, head),
        *sizes(call, view.raised(foot), view.length, Fraction(0), ("length", "")),
    )
    return framed(marks, call.alt, view.one_to, ("whole", "out"))
