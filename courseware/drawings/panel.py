"""A basket-weave panel, brick by brick: stretchers light, soldiers darker, so that the bays show."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks
from courseware.drawings.frame import BRICK, HALF_BRICK, View, framed, sizes
from courseware.drawings.picture import Picture, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Weave, basket_weave

_ROOM = (130.0, 80.0)  # mm of paper for the panel


def draw_panel(call: DrawingCall) -> Picture:
    """The picture of a panel of `bricks` by `courses`, whose lower left bay `starts` with stretchers or soldiers."""
    figures = call.figures
    weave = basket_weave(Fraction(figures["bricks"]), Fraction(figures["courses"]), call.format, str(figures["starts"]))
    view = View(one_to=one_to(weave.width, weave.height, _ROOM))
    return framed((*bays(view, weave), *sizes(call, view, weave.width, weave.height)), call.alt)


def bays(view: View, weave: Weave, at: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))) -> Marks:
    """The bricks of a weave whose lower left corner is `at`, one stroke a kind."""
    strokes = []
    for kind, fill in (("stretcher", BRICK), ("soldier", HALF_BRICK)):
        outlines = tuple(
            view.box(at[0] + b.left, at[1] + b.bottom, at[0] + b.right, at[1] + b.top)
            for b in weave.bricks
            if b.kind == kind
        )
        if outlines:
            strokes.append(Stroke(outlines=outlines, closed=True, weight=0.18, fill=fill))
    return tuple(strokes)
