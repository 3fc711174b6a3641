"""A drawing made to fit a room on paper or a screen: drawn again at a smaller scale, its words as large as before.

What cannot be drawn again is made smaller, an author's own picture for one: all shrinks but its words, which are never
under `SMALLEST_TYPE`.
"""

from __future__ import annotations

from dataclasses import replace

from courseware.drawings import draw
from courseware.drawings.foot import WIDEST, footed
from courseware.drawings.picture import Picture
from courseware.drawings.reduced import fits, reduced
from courseware.papers.sheets import DrawingCall

_ANY = (1e6, 1e6)
PHONE = (70.0, 210.0)  # mm, of 290 pixels' width and the height of a screen
_SHARES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.42, 0.35, 0.29, 0.24, 0.2)  # of a kind's usual room, to try


def on_screen(call: DrawingCall) -> Picture:
    """The drawing as on paper, without its ratio: a screen has no size of its own."""
    return within(call, _ANY, ratio=False)


def on_phone(call: DrawingCall) -> Picture:
    """The drawing for a screen 320 pixels wide: as wide as its smallest words come out 12 pixels high.

    Its views stand one below another.
    """
    return within(call, PHONE, ratio=False)


def within(call: DrawingCall, room: tuple[float, float], *, ratio: bool = True) -> Picture:
    """The drawing at the largest scale at which all of it, words and foot too, is within `room` mm; none is enlarged.

    What is drawn in keeps its true size. Without its `ratio` it is for a screen.
    """
    picture = _footed(draw(call), room, ratio)
    if call.to_draw_in or fits(picture, room):
        return picture
    if not call.own:
        narrow = room[0] < room[1]
        most = min(room[0] / picture.width, room[1] / picture.height)  # words do not shrink: it takes less than this
        for share in _SHARES:
            if share < most + 0.1:
                try:
                    picture = _footed(draw(replace(call, narrow=narrow), share), room, ratio)
                except ValueError:  # at no usual scale
                    break
                if fits(picture, room):
                    return picture
    return reduced(picture, room, ratio=ratio)


def _footed(picture: Picture, room: tuple[float, float], ratio: bool) -> Picture:
    if picture.body is None:
        return picture
    return footed(picture.body, picture.one_to, picture.legend, ratio=ratio, widest=min(WIDEST, room[0]))
