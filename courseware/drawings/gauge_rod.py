"""A gauge rod held against its courses, with the heights from each datum asked for.

The rod stands on the brick below and has a mark at the top of each course, numbered every third. The courses that count
are grey, the brick below and the brick above left white. The marks can be counted, so a bank that asks how many courses
make a height is better without this drawing.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bats, stopped, wholes
from courseware.drawings.dimension import LANE, NAME, THIN, Marks, beside, box, name, upright
from courseware.drawings.frame import HALF_BRICK, View, framed
from courseware.drawings.picture import Label, Picture, Point, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, clear_height, gauge_rod, height

_ROOM = (50.0, 84.0)  # mm of paper for the brickwork
_ROD, _APART = 8.0, 1.5  # mm of paper: the rod's width, its distance from the wall
_NAMES = 42.0  # mm of paper for the datums' names
_WALL = 34.0  # mm of paper that the wall beside the rod takes, or as near as half bricks go
_DATUMS = {
    "height": ("brick below", "last brick"),
    "face_height": ("first brick", "last brick"),
    "clear_height": ("brick below", "brick above"),
}


def draw_gauge_rod(call: DrawingCall) -> Picture:
    """The picture of a gauge rod of `courses`; the datums of the heights shown, and of `datum`, are named."""
    brick, courses = call.format, int(Fraction(call.figures["courses"]))
    view = View(one_to=one_to(brick.module, (courses + 2) * brick.course, _ROOM))
    bricks = max(Fraction(1), Fraction(int(_WALL * view.one_to * 2 / brick.module), 2))
    laid = tuple(laid for row in range(courses) for laid in stopped(bricks, row, brick))
    right = float(bricks * brick.module - brick.perpend)
    marks: Marks = (
        *view.bricks(_white(bricks, courses, brick), fill=None, joint=brick.bed),
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), HALF_BRICK, joint=brick.bed),
        *_names(call, view, courses),
        *_rod(view, courses, brick),
        *_heights(call, view, right),
    )
    if "gauge" in call.labels:
        rod, low = _rod_left(view), gauge_rod(courses, brick)[max(0, (courses - 3) // 2)]
        bottom, top = view.at(0, low)[1], view.at(0, low + brick.course)[1]
        marks += beside((rod, bottom), (rod, top), rod - 4.5, call.labels["gauge"])
    return framed(marks, call.alt)


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
    ticks = tuple(((right - (3.4 if n % 3 == 0 else 2.2), y), (right, y)) for n, y in enumerate(heights, 1))
    numbers = tuple(
        Label(at=(left + 0.6, y + 0.95), text=str(n), size=NAME, anchor="start")
        for n, y in enumerate(heights, 1)
        if n % 3 == 0
    )
    outline = box(left, top, right, view.at(0, 0)[1])
    return (
        Stroke(outlines=(outline,), closed=True, weight=0.35, fill=1.0),
        Stroke(outlines=ticks, weight=0.25),
        *numbers,
    )


def _heights(call: DrawingCall, view: View, right: float) -> Marks:
    marks: Marks = ()
    line = view.at(right, 0)[0]
    for dimension, (bottom, top) in spans(int(Fraction(call.figures["courses"])), call.format).items():
        if dimension in call.labels:
            line += LANE
            marks += upright(view.at(right, bottom), view.at(right, top), line, call.labels[dimension])
    return marks


def _names(call: DrawingCall, view: View, courses: int) -> Marks:
    """The datums in use: a thin line from each to its name, the lower of two below its line."""
    brick = call.format
    levels = {
        "brick below": (Fraction(0), "top of brick below", False),
        "first brick": (brick.bed, "underside of first brick", True),
        "last brick": (height(courses, brick), "top of last brick", False),
        "brick above": (clear_height(courses, brick), "underside of brick above", True),
    }
    datum = str(call.figures["datum"])
    shown = {asked for asked in _DATUMS if asked in call.labels} | {datum if datum == "height" else f"{datum}_height"}
    used = [level for level in levels if any(level in _DATUMS[dimension] for dimension in shown)]
    marks: Marks = ()
    for level in used:
        at, words, above = levels[level]
        y = view.at(0, at)[1]
        start: Point = (_rod_left(view) - _NAMES, y)
        marks += (
            Stroke(outlines=((start, (view.at(0, 0)[0], y)),), weight=THIN),
            name((start[0], y - 0.8 if above else y + 2.7), words),
        )
    return marks
