"""A basket-weave panel in its surround, in the opening that takes both: every piece drawn is a piece counted."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, across, lane
from courseware.drawings.frame import View, framed, sizes
from courseware.drawings.lines import CUT
from courseware.drawings.looks import bricks_of
from courseware.drawings.panel import bays, kinds_in
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Surround, basket_weave, surround

_ROOM = (130.0, 84.0)  # mm of paper for the opening
_LOOKS = {"half brick": "half", "mitred bat": "mitred bat", "corner piece": "corner piece"}


def draw_surround(call: DrawingCall) -> Picture:
    """The picture of a surround in an opening of `bricks` by `courses`; the panel is woven where its courses allow."""
    figures, brick = call.figures, call.format
    found = surround(Fraction(figures["bricks"]), Fraction(figures["courses"]), brick, str(figures["corner"]))
    view = View(one_to=one_to(found.width, found.height, _ROOM))
    marks: Marks = (CUT.stroke(view.box(0, 0, found.width, found.height), closed=True),)
    marks += pieces(view, found)
    kinds = kinds_of(found)
    if found.panel_courses % 3 == 0:
        weave = basket_weave(found.panel_bricks, found.panel_courses, brick, str(figures["starts"]))
        corner = (found.width - weave.width) / 2, (found.height - weave.height) / 2
        marks += bays(view, weave, corner)
        kinds = (*kinds_in(weave), *kinds)
    marks += sizes(call, view, found.width, found.height)
    if "panel_width" in call.labels:
        panel = found.panel_bricks * brick.module - brick.perpend
        left, right = (found.width - panel) / 2, (found.width + panel) / 2
        line = view.at(0, found.height)[1] - lane(call.labels) + 0.5
        marks += across(
            view.at(left, found.height), view.at(right, found.height), line, call.labels["panel_width"], before=True
        )
    return framed(marks, call.alt, view.one_to, kinds)


def pieces(view: View, found: Surround, at: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))) -> Marks:
    """The pieces of a surround whose opening's lower left corner is `at`, in their looks."""
    marks: Marks = ()
    for kind, look in _LOOKS.items():
        outlines = tuple(
            tuple(view.at(at[0] + x, at[1] + y) for x, y in piece.outline)
            for piece in found.pieces
            if piece.kind == kind
        )
        marks += bricks_of(look, outlines)
    return marks


def kinds_of(found: Surround) -> tuple[str, ...]:
    """The kinds of piece in it, as the legend has them."""
    return tuple(look for kind, look in _LOOKS.items() if any(piece.kind == kind for piece in found.pieces))
