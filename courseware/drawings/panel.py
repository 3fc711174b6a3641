"""A basket-weave panel, brick by brick: stretchers light, soldiers darker, so that the bays show."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from courseware.drawings.dimension import Marks, upright
from courseware.drawings.frame import View, datum, framed, sizes
from courseware.drawings.lines import CUT
from courseware.drawings.looks import bricks_of
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, Weave, basket_weave

_ROOM, _SMALLER = (130.0, 80.0), (64.0, 40.0)  # mm of paper for the panel: whole, and its corners alone
_LOOKS = {"stretcher": "whole", "soldier": "soldier"}
_KEPT = 2  # bays, along and up, at either corner
Place = tuple[Fraction, Fraction]


def draw_panel(call: DrawingCall) -> Picture:
    """The picture of a panel of `bricks` by `courses`, whose lower left bay `starts` with stretchers or soldiers.

    Where its corners alone are `drawn`, the bays at the lower left and the upper right stand in its outline.
    """
    figures, brick = call.figures, call.format
    weave = basket_weave(Fraction(figures["bricks"]), Fraction(figures["courses"]), brick, str(figures["starts"]))
    whole = figures["drawn"] == "all"
    view = View(one_to=one_to(weave.width, weave.height, _ROOM if whole else _SMALLER))
    marks: Marks = ()
    if not whole:
        marks += (CUT.stroke(view.box(0, 0, weave.width, weave.height), closed=True),)
    marks += bays(view, weave, keeps=None if whole else at_corners(weave, brick))
    marks += sizes(call, view, weave.width, weave.height)
    if "from_below" in call.labels:
        below = view.at(0, -brick.bed)
        marks += datum(below, view.at(weave.width, -brick.bed), "top of", "brick below")
        marks += upright(below, view.at(0, weave.height), below[0] - 5, call.labels["from_below"])
    return framed(marks, call.alt, view.one_to, kinds_in(weave))


def at_corners(weave: Weave, brick: Format) -> Callable[[Place], bool]:
    """Whether a brick's lower left corner lies in the bays that are drawn where the corners alone are."""
    reach = _KEPT * brick.module
    right, top = weave.width - reach, weave.height - reach
    return lambda place: max(place) < reach or (place[0] > right and place[1] > top)


def bays(
    view: View,
    weave: Weave,
    at: Place = (Fraction(0), Fraction(0)),
    keeps: Callable[[Place], bool] | None = None,
) -> Marks:
    """The bricks of a weave whose lower left corner is `at`, one stroke a kind; those that are kept, where not all."""
    marks: Marks = ()
    for kind, look in _LOOKS.items():
        outlines = tuple(
            view.box(at[0] + b.left, at[1] + b.bottom, at[0] + b.right, at[1] + b.top)
            for b in weave.bricks
            if b.kind == kind and (keeps is None or keeps((b.left, b.bottom)))
        )
        marks += bricks_of(look, outlines)
    return marks


def kinds_in(weave: Weave) -> tuple[str, ...]:
    """The kinds of brick in it, as the legend has them."""
    return tuple(look for kind, look in _LOOKS.items() if any(b.kind == kind for b in weave.bricks))
