"""A picture made larger or smaller by one factor, its words by one of their own, so that they can be read."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import cos, radians, sin

from courseware.drawings.dimension import NAME
from courseware.drawings.foot import WIDEST, footed, without_ratio
from courseware.drawings.frame import framed
from courseware.drawings.picture import Label, Picture, Point, Stroke, extent, moved

_STEPS = 24  # sizes of words that are tried between those of the drawing and those wanted
_TRIES = 5  # a smaller drawing may take another row of its legend
_NEAR = 1e-3  # mm
_CLEAR = 0.05  # of the size of a grown word, that stays free over it
_KEPT = 0.8  # of a drawing's size, with its foot below it

_Box = tuple[float, float, float, float]  # left, top, right, bottom in mm


def resized(picture: Picture, by: float, type_size: Callable[[float], float], pen: float = 1.0) -> Picture:
    """The picture so many times as large, its pens `pen` times; `type_size` gives each size of type its new one."""

    def moved(point: Point) -> Point:
        return point[0] * by, point[1] * by

    shown = picture if by == 1 else without_ratio(picture)
    marks = tuple(
        replace(mark, at=moved(mark.at), size=type_size(mark.size))
        if isinstance(mark, Label)
        else replace(
            mark,
            outlines=tuple(tuple(moved(point) for point in outline) for outline in mark.outlines),
            dash=tuple(length * by for length in mark.dash),
            weight=mark.weight * pen,
        )
        for mark in shown.marks
    )
    wide, high, one_to = picture.width * by, picture.height * by, picture.one_to and picture.one_to / by
    return replace(picture, width=wide, height=high, marks=marks, one_to=one_to, body=None)


def enlarged(picture: Picture, room: tuple[float, float], wanted: float) -> Picture:
    """The picture as large as `room` (mm) takes it, its words as near to `wanted` mm of type as they have room.

    Each grows no further than to where it would touch a line or other words that it stood apart from. Its foot has
    words of the size `wanted` and a bar that is true; the legend, then the bar, is left out where the drawing would
    be much smaller than without them.
    """
    alone = _without_foot(picture, room, wanted)
    for legend in dict.fromkeys((picture.legend, ())):
        found = _with_foot(replace(picture, legend=legend), room, wanted)
        if found and found.body and found.body.width >= _KEPT * alone.width:
            return found
    return alone


def _without_foot(picture: Picture, room: tuple[float, float], wanted: float) -> Picture:
    """The drawing alone, its `one_to` as it then is."""
    bare = picture.body or picture
    grown = framed(_with_words(bare, wanted / _to_fit(bare, room)), bare.alt)
    best = replace(bare if bare.clipped else grown, one_to=picture.one_to)
    by = _to_fit(best, room)
    return resized(best, by, lambda size: size * by, by)


def _with_foot(picture: Picture, room: tuple[float, float], wanted: float) -> Picture | None:
    """The drawing with its foot, both within the room; None where it has none, or the foot does not fit."""
    left = room
    for _ in range(_TRIES):
        made = _without_foot(picture, left, wanted)
        foot = _foot(made, picture.legend, room[0], wanted / NAME)
        if foot is None or foot.width > room[0] + _NEAR:
            return None
        if foot.height <= room[1] + _NEAR:
            aside = (foot.width - made.width) / 2
            return replace(foot, marks=(*(moved(mark, aside, 0.0) for mark in made.marks), *foot.marks), body=made)
        left = room[0], room[1] - (foot.height - made.height)
        if left[1] <= 0:
            return None
    return None


def _foot(made: Picture, legend: tuple[str, ...], widest: float, times: float) -> Picture | None:
    """The foot alone of a picture that is finished, so many times as large as on paper; None where it has none."""
    frame = replace(made, width=made.width / times, height=made.height / times, marks=(), body=None)
    scale = made.one_to and made.one_to * times
    found = footed(frame, scale, legend, ratio=False, widest=min(WIDEST, widest / times))
    return resized(found, times, lambda size: size * times, times) if found.marks else None


def _to_fit(picture: Picture, room: tuple[float, float]) -> float:
    return min(room[0] / picture.width, room[1] / picture.height)


def _with_words(picture: Picture, wanted: float) -> tuple[Stroke | Label, ...]:
    """The picture's marks, its words grown one by one."""
    marks = list(picture.marks)
    lines = [box for mark in marks if isinstance(mark, Stroke) for box in _boxes(mark)]
    for place, mark in enumerate(marks):
        if isinstance(mark, Label) and mark.size < wanted:
            words = [_spanning(extent(other)) for other in marks if isinstance(other, Label) and other is not mark]
            clear_lines = [line for line in lines if not _touch(line, _round(mark))]
            clear_words = [word for word in words if not _touch(word, _spanning(extent(mark)))]
            steps = (mark.size + (wanted - mark.size) * step / _STEPS for step in range(_STEPS, 0, -1))
            sizes = (replace(mark, size=size) for size in steps)
            marks[place] = next((one for one in sizes if _stands_clear(one, clear_lines, clear_words)), mark)
    return tuple(marks)


def _stands_clear(label: Label, lines: Sequence[_Box], words: Sequence[_Box]) -> bool:
    """Whether a label touches none of the lines, which may run at the foot of its letters, and none of the words."""
    own, whole = _round(replace(label, size=label.size * (1 + _CLEAR))), _spanning(extent(label))
    return not any(_touch(own, line) for line in lines) and not any(_touch(whole, word) for word in words)


def _boxes(stroke: Stroke) -> Iterator[_Box]:
    """What a stroke takes up: an outline that is closed as a whole, else each of its lines."""
    for outline in stroke.outlines:
        if stroke.closed:
            yield _spanning(outline)
        else:
            yield from map(_spanning, pairwise(outline))


def _round(label: Label) -> _Box:
    """What a label's letters take up above their line."""
    feet = extent(replace(label, size=0.001))
    return _spanning((*feet, *(point for point in extent(label) if _above(label, point))))


def _above(label: Label, point: Point) -> bool:
    """Whether a corner of the room round a label's letters is above the line that they stand on."""
    turned = radians(label.turn)
    return -(point[0] - label.at[0]) * sin(turned) - (point[1] - label.at[1]) * cos(turned) > 0


def _spanning(points: Sequence[Point]) -> _Box:
    across, down = [x for x, _ in points], [y for _, y in points]
    return min(across), min(down), max(across), max(down)


def _touch(a: _Box, b: _Box) -> bool:
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]
