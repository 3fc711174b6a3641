"""A drawing made to fit a room on paper or a screen: drawn again at a smaller scale, its words as large as before.

What cannot be drawn again is made smaller, an author's own picture for one: all shrinks but its words, which are never
under `SMALLEST_TYPE`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from courseware.drawings import draw
from courseware.drawings.dimension import to_write_in, with_boxes
from courseware.drawings.foot import WIDEST, footed
from courseware.drawings.picture import Label, Picture, Stroke, extent
from courseware.drawings.reduced import fits, reduced
from courseware.papers.sheets import DrawingCall

Room = tuple[float, float]  # mm
_Box = tuple[float, float, float, float]  # left, top, right, bottom in mm

PHONE = (70.0, 210.0)  # mm, of 290 pixels' width and the height of a screen
_ANY = (1e6, 1e6)
_SHARES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.42, 0.35, 0.29, 0.24, 0.2)  # of a kind's usual room, to try
_TOUCH = 0.05  # mm: words are measured as wide as they can be
_WORTH_A_TRY = 1.1  # of the room: dimensions and words take as much at any scale


class Sizes:
    """A drawing at the scales that it was asked for, each drawn once: its words and its boxes are as large in all."""

    def __init__(self, call: DrawingCall, boxes: float = 1.0) -> None:
        self._call = call
        self._boxes = boxes  # of the usual size of a box to write in
        self._drawn: dict[tuple[float, bool], Picture] = {}

    @property
    def whole(self) -> Picture:
        """As large as its kind comes."""
        return self._at(1.0)

    def fitting(self, room: Room, *, ratio: bool = True, narrow: bool = False) -> Picture | None:
        """The drawing at the largest scale at which all of it, words and foot too, is within the room.

        No more of its words lie over one another than at full size; None where there is no such scale. Without its
        `ratio` it is for a screen; a `narrow` one has its views one below another.
        """
        most = touching(self.whole)
        made = self.made_for(room, ratio, narrow)
        return next((one for one in made if fits(one, room) and touching(one) <= most), None)

    def within(self, *rooms: Room, ratio: bool = True, narrow: bool = False) -> Picture:
        """The drawing made for the first of its rooms that it fits at a scale, else made smaller with its words.

        What is drawn in keeps its true size.
        """
        if self._call.to_draw_in:
            return self.whole
        made = (self.fitting(room, ratio=ratio, narrow=narrow) for room in rooms)
        return next(filter(None, made), None) or self._reduced(rooms[-1], ratio, narrow)

    def _reduced(self, room: Room, ratio: bool, narrow: bool) -> Picture:
        """Made smaller with its words, from the scale at which fewest then lie on one another and least shrinks."""
        made = sorted(self.made_for(room, ratio, narrow), key=lambda one: -_share_of(one, room))
        return min((reduced(one, room, ratio=ratio) for one in made), key=touching)

    def made_for(self, room: Room, ratio: bool, narrow: bool) -> Iterator[Picture]:
        """The drawing at every scale that may come near to filling the room, from the largest on."""
        most = _share_of(self.whole, room)
        for share in (share for share in _SHARES if share == 1 or share <= _WORTH_A_TRY * most):
            try:
                yield _footed(self._at(share, narrow=narrow and share < 1), room, ratio)
            except ValueError:  # at no usual scale
                return
            if self._call.own:  # which has one size
                return

    def _at(self, share: float, *, narrow: bool = False) -> Picture:
        if (share, narrow) not in self._drawn:
            with with_boxes(self._boxes):
                call = replace(self._call, narrow=narrow) if narrow else self._call
                self._drawn[share, narrow] = draw(call, share)
        return self._drawn[share, narrow]


def on_screen(sizes: Sizes) -> Picture:
    """The drawing as on paper, without its ratio: a screen has no size of its own."""
    return sizes.within(_ANY, ratio=False)


def on_phone(sizes: Sizes) -> Picture:
    """The drawing for a screen 320 pixels wide: as wide as its smallest words come out 12 pixels high.

    Its views stand one below another.
    """
    return sizes.within(PHONE, ratio=False, narrow=True)


def _footed(picture: Picture, room: Room, ratio: bool) -> Picture:
    """The picture with its foot laid out for the room; the foot runs out at its sides no further than the room is."""
    widest = min(WIDEST, room[0])
    if picture.body is None or (ratio and widest == WIDEST):
        return picture
    return footed(picture.body, picture.one_to, picture.legend, ratio=ratio, widest=widest)


def _share_of(picture: Picture, room: Room) -> float:
    """How much of its own size a picture keeps in a room."""
    return min(room[0] / picture.width, room[1] / picture.height)


def touching(picture: Picture) -> int:
    """How many pairs of words, and of boxes to write in, stand over one another."""
    boxes = [_box(mark) for mark in picture.marks if isinstance(mark, Label) or to_write_in(mark)]
    return sum(_shared(a, b) > _TOUCH for a, b in combinations(boxes, 2))


def _shared(a: _Box, b: _Box) -> float:
    """How far two boxes lie over one another, in mm; less than nothing where they stand apart."""
    return min(a[2] - b[0], b[2] - a[0], a[3] - b[1], b[3] - a[1])


def _box(mark: Stroke | Label) -> _Box:
    corners = extent(mark)
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return min(across), min(down), max(across), max(down)
