"""A basket-weave panel in its surround, in the opening that takes both: every piece drawn is a piece counted."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import LANE, Marks, across
from courseware.drawings.frame import BRICK, PROJECTING, View, framed, sizes
from courseware.drawings.panel import bays
from courseware.drawings.picture import Picture, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Surround, basket_weave, surround

_ROOM = (130.0, 84.0)  # mm of paper for the opening
_FILLS = {"half brick": BRICK, "mitred bat": PROJECTING, "corner piece": 1.0}


def draw_surround(call: DrawingCall) -> Picture:
    """The picture of a surround in an opening of `bricks` by `courses`; the panel is woven where its courses allow."""
    figures, brick = call.figures, call.format
    found = surround(Fraction(figures["bricks"]), Fraction(figures["courses"]), brick, str(figures["corner"]))
    view = View(one_to=one_to(found.width, found.height, _ROOM))
    marks: Marks = (Stroke(outlines=(view.box(0, 0, found.width, found.height),), closed=True, weight=0.5),)
    marks += pieces(view, found)
    if found.panel_courses % 3 == 0:
        weave = basket_weave(found.panel_bricks, found.panel_courses, brick, str(figures["starts"]))
        corner = (found.width - weave.width) / 2, (found.height - weave.height) / 2
        marks += bays(view, weave, corner)
    marks += sizes(call, view, found.width, found.height)
    if "panel_width" in call.labels:
        panel = found.panel_bricks * brick.module - brick.perpend
        left, right = (found.width - panel) / 2, (found.width + panel) / 2
        line = view.at(0, found.height)[1] - LANE + 4
        marks += across(view.at(left, found.height), view.at(right, found.height), line, call.labels["panel_width"])
    return framed(marks, call.alt)


def pieces(view: View, found: Surround, at: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))) -> Marks:
    """The pieces of a surround whose opening's lower left corner is `at`, one stroke a kind."""
    strokes = []
    for kind, fill in _FILLS.items():
        outlines = tuple(
            tuple(view.at(at[0] + x, at[1] + y) for x, y in piece.outline)
            for piece in found.pieces
            if piece.kind == kind
        )
        if outlines:
            strokes.append(Stroke(outlines=outlines, closed=True, weight=0.18, fill=fill))
    return tuple(strokes)
