"""A picture made larger or smaller by one factor, its words by one of their own, so that they can be read."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import combinations

from courseware.drawings.frame import extent, framed
from courseware.drawings.picture import Label, Picture, Point

_STEPS = 8  # sizes of words that are tried between those of the drawing and those wanted


def resized(picture: Picture, by: float, type_size: Callable[[float], float], pen: float = 1.0) -> Picture:
    """The picture so many times as large, its pens `pen` times; `type_size` gives each size of type its new one."""

    def moved(point: Point) -> Point:
        return point[0] * by, point[1] * by

    marks = tuple(
        replace(mark, at=moved(mark.at), size=type_size(mark.size))
        if isinstance(mark, Label)
        else replace(
            mark,
            outlines=tuple(tuple(moved(point) for point in outline) for outline in mark.outlines),
            dash=tuple(length * by for length in mark.dash),
            weight=mark.weight * pen,
        )
        for mark in picture.marks
    )
    return replace(picture, width=picture.width * by, height=picture.height * by, marks=marks)


def enlarged(picture: Picture, room: tuple[float, float], wanted: float) -> Picture:
    """The picture as large as `room` (mm) takes it, its words as near to `wanted` mm of type as they have room.

    Words grow no further than to where two of them would touch that stood apart before.
    """
    touched = set(_touching(picture))
    lacking = wanted / _to_fit(picture, room)
    grown = (_with_words(picture, lacking, step / _STEPS) for step in range(_STEPS, 0, -1))
    best = next((one for one in grown if set(_touching(one)) <= touched), picture)
    by = _to_fit(best, room)
    return resized(best, by, lambda size: size * by, by)


def _to_fit(picture: Picture, room: tuple[float, float]) -> float:
    return min(room[0] / picture.width, room[1] / picture.height)


def _with_words(picture: Picture, wanted: float, share: float) -> Picture:
    """The picture with its words grown by a share of what they lack, and framed again so that it holds them."""
    marks = tuple(
        replace(mark, size=mark.size + share * max(0.0, wanted - mark.size)) if isinstance(mark, Label) else mark
        for mark in picture.marks
    )
    return framed(marks, picture.alt)


def _touching(picture: Picture) -> Iterator[tuple[int, int]]:
    """The places of labels whose words stand over one another."""
    boxes = [(place, _box(mark)) for place, mark in enumerate(picture.marks) if isinstance(mark, Label)]
    for (one, a), (other, b) in combinations(boxes, 2):
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
            yield one, other


def _box(label: Label) -> tuple[float, float, float, float]:
    corners = extent(label)
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return min(across), min(down), max(across), max(down)
