"""A drawing made smaller to fit a room, its words less so."""

from __future__ import annotations

from dataclasses import replace

from courseware.drawings.picture import Label, Picture, Point

_SMALLEST_TYPE = 2.1  # mm, in a drawing made smaller


def reduced(picture: Picture, room: tuple[float, float]) -> Picture:
    """The picture made smaller where it is larger than `room`; its words shrink less, so that they can be read."""
    by = min(1.0, room[0] / picture.width, room[1] / picture.height)

    def moved(point: Point) -> Point:
        return point[0] * by, point[1] * by

    marks = tuple(
        replace(mark, at=moved(mark.at), size=max(mark.size * by, min(mark.size, _SMALLEST_TYPE)))
        if isinstance(mark, Label)
        else replace(
            mark,
            outlines=tuple(tuple(moved(point) for point in outline) for outline in mark.outlines),
            dash=tuple(length * by for length in mark.dash),
        )
        for mark in picture.marks
    )
    return replace(picture, width=picture.width * by, height=picture.height * by, marks=marks)
