"""An author's own picture fitted to the sheet: all that is drawn within its room, words large enough to read."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

from courseware.banks.own_picture import ROOM, SMALLEST_TYPE, NotDrawn, OwnLine, OwnWords, Point

_FINEST = 0.1  # mm of pen: a finer line does not print
_FARTHEST = 1e6  # mm
_LEAST = 1.0  # mm either way: smaller is a speck
_LETTER = 0.6  # width of a letter to its size, wider than the face is on average

OwnMarks = tuple[OwnLine | OwnWords, ...]


def fitted(marks: OwnMarks) -> OwnMarks:
    """The marks moved to the paper's corner, and made smaller where they do not fit `ROOM`; never larger.

    Raises `NotDrawn` where there are none, where one lies too far off, and where words would be too small to read.
    """
    corners = [corner for mark in marks for corner in _extent(mark)]
    if not corners:
        raise NotDrawn("nothing is drawn in it", "expected lines with a stroke, or shapes with a fill")
    if any(not abs(side) < _FARTHEST for corner in corners for side in corner):
        raise NotDrawn("something lies too far off to be drawn", "expected all within the picture")
    left, top = min(x for x, _ in corners), min(y for _, y in corners)
    wide, high = max(x for x, _ in corners) - left, max(y for _, y in corners) - top
    if max(wide, high) < _LEAST:
        raise NotDrawn("all of it lies on one point", "expected a drawing of 1 mm or more: look at its transforms")
    by = min(1.0, ROOM[0] / wide if wide else 1.0, ROOM[1] / high if high else 1.0)
    found = tuple(_moved(mark, (left, top), by) for mark in marks)
    for mark in found:
        if isinstance(mark, OwnWords) and mark.size < SMALLEST_TYPE:
            raise NotDrawn(
                f"`{mark.text[:30]}` would be {mark.size:.2f} mm high on paper",
                f"expected words of {SMALLEST_TYPE} mm or more in a picture of {ROOM[0]:g} by {ROOM[1]:g} mm",
            )
    return found


def _extent(mark: OwnLine | OwnWords) -> list[Point]:
    """Points that the mark lies between: a line's own, the corners round the letters of words."""
    if isinstance(mark, OwnLine):
        return [point for run in mark.runs for point in run]
    wide = len(mark.text) * mark.size * _LETTER
    before = {"start": 0.0, "middle": -wide / 2, "end": -wide}[mark.anchor]
    c, s = cos(radians(mark.turn)), sin(radians(mark.turn))
    x, y = mark.at
    return [
        (x + c * along - s * up, y - s * along - c * up)
        for along in (before, before + wide)
        for up in (-0.25 * mark.size, 0.8 * mark.size)
    ]


def _moved(mark: OwnLine | OwnWords, corner: Point, by: float) -> OwnLine | OwnWords:
    def put(point: Point) -> Point:
        return round((point[0] - corner[0]) * by, 3), round((point[1] - corner[1]) * by, 3)

    if isinstance(mark, OwnWords):
        return replace(mark, at=put(mark.at), size=round(mark.size * by, 3))
    return replace(
        mark,
        runs=tuple(tuple(put(point) for point in run) for run in mark.runs),
        weight=max(_FINEST, round(mark.weight * by, 3)) if mark.weight else 0.0,
        dash=tuple(max(_FINEST, round(piece * by, 3)) for piece in mark.dash),
    )
