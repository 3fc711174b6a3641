"""A drawing larger than a page, cut into tiles that overlap a little, with marks to join them by."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from courseware.drawings.dimension import NAME
from courseware.drawings.lines import FINE, SEEN
from courseware.drawings.picture import Label, Picture, Stroke, moved

TILE = (160.0, 225.0)  # mm of a page
_OVERLAP = 10.0  # mm that two tiles share
_CROSS = 3.0
_IN = 0.1  # mm: the edge as drawn, so that all of its line is on the tile
_EDGE = replace(
    FINE.stroke(((_IN, _IN), (TILE[0] - _IN, _IN), (TILE[0] - _IN, TILE[1] - _IN), (_IN, TILE[1] - _IN)), closed=True),
    dash=(1, 1),
)


def tiles(picture: Picture) -> tuple[Picture, ...]:
    """The tiles row by row from the top left. Crosses stand where overlaps meet, on every tile that shows them."""
    across, down = (_count(size, room) for size, room in zip((picture.width, picture.height), TILE, strict=True))
    step = TILE[0] - _OVERLAP, TILE[1] - _OVERLAP
    crosses = _crosses(across, down, step)
    found = []
    for row in range(down):
        for column in range(across):
            left, top = column * step[0], row * step[1]
            marks = tuple(moved(mark, -left, -top) for mark in (*picture.marks, crosses))
            says = f"tile {chr(65 + row)}{column + 1} of A1 to {chr(64 + down)}{across}"
            name = Label(at=(TILE[0] - _OVERLAP, TILE[1] - 2), text=says, size=NAME, anchor="end")  # beside the cross
            alt = f"{picture.alt}, {says}"
            found.append(Picture(width=TILE[0], height=TILE[1], marks=(*marks, _EDGE, name), alt=alt, clipped=True))
    return tuple(found)


def _count(size: float, room: float) -> int:
    return max(1, ceil((size - _OVERLAP) / (room - _OVERLAP)))


def _crosses(across: int, down: int, step: tuple[float, float]) -> Stroke:
    """A cross in the middle of every overlap, where both tiles show it."""
    runs = []
    for column in range(across + 1):
        for row in range(down + 1):
            x, y = column * step[0] + _OVERLAP / 2, row * step[1] + _OVERLAP / 2
            runs += [((x - _CROSS, y), (x + _CROSS, y)), ((x, y - _CROSS), (x, y + _CROSS))]
    return SEEN.stroke(*runs)
