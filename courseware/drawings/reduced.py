"""A drawing made smaller to fit a room, its words less so: none is under `SMALLEST_TYPE`, its bar stays true."""

from __future__ import annotations

from dataclasses import replace

from courseware.drawings.foot import WIDEST, footed
from courseware.drawings.picture import SMALLEST_TYPE, Label, Picture, Point, Stroke, extent, moved

_LESS = 0.96
_TRIES = 12  # words do not shrink with the rest, and the foot may take another row: then a little less is left


def reduced(picture: Picture, room: tuple[float, float], *, ratio: bool = True) -> Picture:
    """The picture made smaller where it is larger than `room`; its words shrink less, so that they can be read.

    Its foot is laid out again at the new size: the bar is true there, and a ratio that is no usual scale is left out.
    """
    by, body = 1.0, picture.body or picture
    found = picture
    for _ in range(_TRIES):
        if fits(found, room):
            break
        foot = found.height - (found.body.height if found.body else found.height)
        by = min(by * _LESS, room[0] / body.width, (room[1] - foot) / body.height)
        smaller = _shrunk(body, by)
        scale = picture.one_to / by if picture.one_to else None
        found = footed(smaller, scale, picture.legend, ratio=ratio, widest=min(WIDEST, room[0]))
    return found


def fits(picture: Picture, room: tuple[float, float]) -> bool:
    """Whether all of it is within so many mm."""
    return picture.width <= room[0] + 1e-6 and picture.height <= room[1] + 1e-6


def _shrunk(picture: Picture, by: float) -> Picture:
    """The picture with all but its words smaller, and as much larger again as words stand out of it."""
    marks = tuple(_smaller(mark, by) for mark in picture.marks)
    corners = [corner for mark in marks if isinstance(mark, Label) for corner in extent(mark)]
    left, top = min([0.0, *(x for x, _ in corners)]), min([0.0, *(y for _, y in corners)])
    right = max([picture.width * by, *(x for x, _ in corners)])
    bottom = max([picture.height * by, *(y for _, y in corners)])
    inside = tuple(moved(mark, -left, -top) for mark in marks) if left or top else marks
    return replace(picture, width=right - left, height=bottom - top, marks=inside)


def _smaller(mark: Stroke | Label, by: float) -> Stroke | Label:
    def put(point: Point) -> Point:
        return point[0] * by, point[1] * by

    if isinstance(mark, Label):
        return replace(mark, at=put(mark.at), size=max(mark.size * by, min(mark.size, SMALLEST_TYPE)))
    outlines = tuple(tuple(put(point) for point in outline) for outline in mark.outlines)
    return replace(mark, outlines=outlines, dash=tuple(length * by for length in mark.dash))
