"""Herringbone in its opening, set out from its centre line: whole bricks plain, cut ones hatched."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, name
from courseware.drawings.frame import View, framed, sizes
from courseware.drawings.hatching import hatching
from courseware.drawings.lines import CENTRE, CUT
from courseware.drawings.looks import bricks_of
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import clear_height, herringbone, opening

_ROOM = (120.0, 80.0)  # mm of paper for the opening
_ABOVE, _BELOW = 3.0, 1.5  # mm of paper that the centre line runs past the opening, clear of the width's figure


def draw_herringbone(call: DrawingCall) -> Picture:
    """The picture of herringbone at `angle` degrees in an opening of `bricks` by `courses`."""
    figures, brick, angle = call.figures, call.format, int(Fraction(call.figures["angle"]))
    wide, high = opening(Fraction(figures["bricks"]), brick), clear_height(Fraction(figures["courses"]), brick)
    laid = herringbone(wide, high, brick, angle)
    view = View(one_to=one_to(wide, high, _ROOM))
    pieces = {
        whole: tuple(tuple(view.at(x, y) for x, y in p.outline) for p in laid.pieces if p.whole is whole)
        for whole in (True, False)
    }
    marks: Marks = (
        CUT.stroke(view.box(0, 0, wide, high), closed=True),
        *(mark for outlines in pieces.values() for mark in bricks_of("whole", outlines, fine=view.fine(brick.bed))),
    )
    if pieces[False]:
        marks += (hatching(*pieces[False], apart=1.2, level=angle == 45),)  # at 45 degrees to the bricks' sides
    top, foot = view.at(wide / 2, high), view.at(wide / 2, 0)
    marks += (
        CENTRE.stroke(((top[0], top[1] - _ABOVE), (foot[0], foot[1] + _BELOW))),
        name((top[0], top[1] - _ABOVE - 1), "centre line", anchor="middle"),
    )
    kinds = tuple(kind for whole, kind in ((True, "whole"), (False, "cut")) if pieces[whole])
    return framed((*marks, *sizes(call, view, wide, high)), call.alt, view.one_to, kinds)
