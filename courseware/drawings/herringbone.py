"""Herringbone in its opening, set out from its centre line: whole bricks plain, cut ones hatched."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, name
from courseware.drawings.frame import BRICK, CHAIN, View, framed, hatching, sizes
from courseware.drawings.picture import Picture, Stroke
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
        Stroke(outlines=(view.box(0, 0, wide, high),), closed=True, weight=0.5),
        *(Stroke(outlines=outlines, closed=True, weight=0.18, fill=BRICK) for outlines in pieces.values() if outlines),
    )
    if pieces[False]:
        marks += (hatching(*pieces[False], apart=1.2, level=angle == 45),)  # at 45 degrees to the bricks' sides
    top, foot = view.at(wide / 2, high), view.at(wide / 2, 0)
    marks += (
        Stroke(outlines=(((top[0], top[1] - _ABOVE), (foot[0], foot[1] + _BELOW)),), weight=0.25, dash=CHAIN),
        name((top[0], top[1] - _ABOVE - 1), "centre line", anchor="middle"),
    )
    return framed((*marks, *sizes(call, view, wide, high)), call.alt)
