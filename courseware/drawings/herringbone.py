"""Herringbone in its opening: whole bricks light, cut ones darker."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks
from courseware.drawings.frame import BRICK, PROJECTING, View, framed, sizes
from courseware.drawings.picture import Picture, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import clear_height, herringbone, opening

_ROOM = (120.0, 80.0)  # mm of paper for the opening


def draw_herringbone(call: DrawingCall) -> Picture:
    """The picture of herringbone at `angle` degrees in an opening of `bricks` by `courses`."""
    figures, brick = call.figures, call.format
    wide, high = opening(Fraction(figures["bricks"]), brick), clear_height(Fraction(figures["courses"]), brick)
    laid = herringbone(wide, high, brick, int(Fraction(figures["angle"])))
    view = View(one_to=one_to(wide, high, _ROOM))
    marks: Marks = (Stroke(outlines=(view.box(0, 0, wide, high),), closed=True, weight=0.5),)
    for whole, fill in ((True, BRICK), (False, PROJECTING)):
        outlines = tuple(tuple(view.at(x, y) for x, y in p.outline) for p in laid.pieces if p.whole is whole)
        if outlines:
            marks += (Stroke(outlines=outlines, closed=True, weight=0.18, fill=fill),)
    return framed((*marks, *sizes(call, view, wide, high)), call.alt)
