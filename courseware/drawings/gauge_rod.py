"""A gauge rod held against its courses, with the heights from each datum asked for.

The rod stands on the brick below and has a mark at the top of each course, numbered every third. The courses that count
are grey, the brick below and the brick above left white. The marks can be counted, so a bank that asks how many courses
make a height is better without this drawing.
"""

from __future__ import annotations

import math
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bats, stopped, wholes
from courseware.drawings.dimension import NAME, Marks, beside, box, lane, name, upright
from courseware.drawings.frame import View, framed, level
from courseware.drawings.lines import REFERENCE, SYMBOL
from courseware.drawings.picture import Label, Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, clear_height, gauge_rod, height

_ROOM = (50.0, 84.0)  # mm of paper for the brickwork
_ROD, _APART = 8.0, 1.5  # mm of paper: the rod's width, its distance from the wall
_NAMES, _ROW = 25.0, 3.8  # mm of paper for the names of datums; from one line of them to the next
_LITTLE = 0.6  # of the usual room: with less the gauge stands upright
_GAUGE = 25.0  # mm of paper for the gauge of one course, between the names and the rod
_WALL = 34.0  # mm of paper that the wall beside the rod takes, or as near as half bricks go
_LETTER, _LETTERS = 7.0, "ABCD"
_LEVELS = {  # each with its name in two lines, and whether that stands above its line
    "brick below": (("top of", "brick below"), False),
    "first brick": (("underside of", "first brick"), True),
    "last brick": (("top of", "last brick"), False),
    "brick above": (("underside of", "brick above"), True),
}
_DATUMS = {
    "height": ("brick below", "last brick"),
    "face_height": ("first brick", "last brick"),
    "clear_height": ("brick below", "brick above"),
}


def draw_gauge_rod(call: DrawingCall) -> Picture:
    """The picture of a gauge rod of `courses`; the datums of the heights shown, and of `datum`, are named."""
    brick, courses = call.format, int(Fraction(call.figures["courses"]))
    view = View(one_to=one_to(brick.module, (courses + 2) * brick.course, _ROOM))
    bricks = max(Fraction(1), Fraction(int(_WALL * call.share * view.one_to * 2 / brick.module), 2))
    laid = tuple(laid for row in range(courses) for laid in stopped(bricks, row, brick))
    right = float(bricks * brick.module - brick.perpend)
    marks: Marks = (
        *view.bricks(_white(bricks, courses, brick), kind=None, joint=brick.bed),
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), "half", joint=brick.bed),
        *_names(call, view, courses, view.at(right, 0)[0]),
        *_rod(view, courses, brick),
        *_heights(call, view, right),
    )
    if "gauge" in call.labels:
        rod, low = _rod_left(view), gauge_rod(courses, brick)[max(0, (courses - 3) // 2)]
        bottom, top = view.at(0, low)[1], view.at(0, low + brick.course)[1]
        drawn = upright if call.share < _LITTLE else beside
        marks += drawn((rod, bottom), (rod, top), rod - 4.5, call.labels["gauge"])
    return framed(marks, call.alt, view.one_to, ("whole", "half"))


def spans(courses: int, brick: Format) -> dict[str, tuple[Fraction, Fraction]]:
    """From where to where each height runs, in mm from the top of the brick below."""
    top, clear = height(courses, brick), clear_height(courses, brick)
    return {
        "face_height": (brick.bed, top),
        "height": (Fraction(0), top),
        "clear_height": (Fraction(0), clear),
    }


def _white(bricks: Fraction, courses: int, brick: Format) -> tuple[PlacedBrick, ...]:
    return (*stopped(bricks, -1, brick), *stopped(bricks, courses, brick))


def _rod_left(view: View) -> float:
    return view.at(0, 0)[0] - _APART - _ROD


def _rod(view: View, courses: int, brick: Format) -> Marks:
    left, right = _rod_left(view), _rod_left(view) + _ROD
    heights = [view.at(0, mark)[1] for mark in gauge_rod(courses, brick)]
    top = view.at(0, height(courses, brick) + brick.course)[1]
    numbered = 3 * math.ceil(_ROW / (heights[0] - heights[3])) if courses > 3 else 3
    ticks = tuple(((right - (3.4 if n % 3 == 0 else 2.2), y), (right, y)) for n, y in enumerate(heights, 1))
    numbers = tuple(
        Label(at=(left + 0.6, y + 0.95), text=str(n), size=NAME, anchor="start")
        for n, y in enumerate(heights, 1)
        if n % numbered == 0
    )
    outline = box(left, top, right, view.at(0, 0)[1])
    return (
        SYMBOL.stroke(outline, closed=True, fill=1.0),
        SYMBOL.stroke(*ticks),
        *numbers,
    )


def _heights(call: DrawingCall, view: View, right: float) -> Marks:
    marks: Marks = ()
    line = view.at(right, 0)[0]
    for dimension, (bottom, top) in spans(int(Fraction(call.figures["courses"])), call.format).items():
        if dimension in call.labels:
            line += lane(call.labels)
            marks += upright(view.at(right, bottom), view.at(right, top), line, call.labels[dimension])
    return marks


def _names(call: DrawingCall, view: View, courses: int, right: float) -> Marks:
    """The datums in use: a thin line from each to its name, the lower of two below its line.

    Where there is little room letters stand there, and the names beside the drawing or below it.
    """
    datum = str(call.figures["datum"])
    main = datum if datum == "height" else f"{datum}_height"
    shown = {asked for asked in _DATUMS if asked in call.labels} | {main}
    used = [one for one in _LEVELS if any(one in _DATUMS[size] for size in shown)]
    gauge = 0 if "gauge" not in call.labels else lane(call.labels) if call.share < _LITTLE else _GAUGE
    lettered = call.narrow or view.at(0, 0)[1] - view.at(0, height(courses, call.format))[1] < 4.8 * _ROW
    left = _rod_left(view) - (_LETTER if lettered else _NAMES) - gauge
    listed = (left, view.at(0, -call.format.course)[1] + 2 + _ROW)
    if not call.narrow:
        heights = len(call.labels.keys() & _DATUMS.keys())
        listed = (right + heights * lane(call.labels) + _ROW, view.at(0, height(courses, call.format))[1])
    marks: Marks = ()
    for n, (one, letter) in enumerate(zip(used, _LETTERS, strict=False), 1):
        y, (words, above) = view.at(0, _level(one, courses, call.format))[1], _LEVELS[one]
        lines = (letter,) if lettered else words
        first = y - 0.8 - (len(lines) - 1) * _ROW if above else y + NAME
        marks += (
            REFERENCE.stroke(((left, y), (view.at(0, 0)[0], y))),
            *(name((left, first + n * _ROW), line) for n, line in enumerate(lines)),
        )
        if one == _DATUMS[main][0]:
            marks += (level((_rod_left(view) - 2.5, y)),)
        if lettered:
            told: tuple[str, ...] = (f"{letter}: {words[0]}", words[1])
            told = (" ".join(told),) if call.narrow else told
            marks += tuple(
                name((listed[0], listed[1] + ((n - 1) * len(told) + k) * _ROW), line) for k, line in enumerate(told)
            )
    return marks


def _level(one: str, courses: int, brick: Format) -> Fraction:
    """How high a datum lies, in mm from the top of the brick below."""
    return {
        "brick below": Fraction(0),
        "first brick": brick.bed,
        "last brick": height(courses, brick),
        "brick above": clear_height(courses, brick),
    }[one]
