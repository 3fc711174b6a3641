"""Small pictures of the ways to keep the dust of cutting down, of our own design, in no order of theirs."""

from __future__ import annotations

import math

from courseware.drawings.dimension import Marks, box, name
from courseware.drawings.frame import BRICK, HALF_BRICK, PROJECTING, framed
from courseware.drawings.picture import Picture, Point, Stroke, moved
from courseware.papers.sheets import DrawingCall

_SIDE, _APART = 20.0, 4.4  # mm of paper: a picture's square, and between two
_NAME = 4.0


def draw_controls(call: DrawingCall) -> Picture:
    """The four pictures in a row: a mask, a wet and extracted saw, whole bricks, one marked place for all cuts."""
    marks: Marks = ()
    drawn = (("mask", _mask()), ("wet or extracted", _saw()), ("whole bricks", _whole()), ("one place", _place()))
    for place, (says, picture) in enumerate(drawn):
        left = place * (_SIDE + _APART)
        frame = Stroke(outlines=(box(0, 0, _SIDE, _SIDE),), closed=True, weight=0.35, fill=1.0)
        marks += tuple(moved(mark, left, 0.0) for mark in (frame, *picture))
        marks += (name((left + _SIDE / 2, _SIDE + _NAME), says, anchor="middle"),)
    return framed(marks, call.alt)


def _round(middle: Point, wide: float, high: float, start: float = 0.0, end: float = 360.0) -> tuple[Point, ...]:
    """Points of an ellipse from one angle to another, in degrees anticlockwise from the right."""
    count = 24
    return tuple(
        (middle[0] + wide * math.cos(turn), middle[1] - high * math.sin(turn))
        for turn in (math.radians(start + (end - start) * n / count) for n in range(count + (end - start < 360)))
    )


def _mask() -> Marks:
    """A head from the front with a half mask over nose and mouth, its filters and its strap."""
    cup = ((6.6, 10.4), (10.0, 8.2), (13.4, 10.4), (13.0, 14.2), (10.0, 16.0), (7.0, 14.2))
    filters = tuple(_round((x, 13.0), 1.7, 1.7) for x in (6.3, 13.7))
    eyes = tuple(_round((x, 7.4), 0.55, 0.55) for x in (7.8, 12.2))
    return (
        Stroke(outlines=(_round((10.0, 10.0), 6.2, 8.0),), closed=True, weight=0.35, fill=1.0),
        Stroke(outlines=(((3.9, 9.6), (6.6, 10.8)), ((16.1, 9.6), (13.4, 10.8))), weight=0.7),
        Stroke(outlines=(cup,), closed=True, weight=0.35, fill=HALF_BRICK),
        Stroke(outlines=filters, closed=True, weight=0.35, fill=PROJECTING),
        Stroke(outlines=eyes, closed=True, weight=0, fill=0.0),
    )


def _saw() -> Marks:
    """A blade in a brick, drops from a pipe before it and a hose behind it."""
    teeth = tuple(
        (8.6 + reach * math.cos(turn), 8.6 + reach * math.sin(turn))
        for n in range(32)
        for reach, turn in [(5.4 if n % 2 else 4.9, math.pi * n / 16)]
    )
    drops = tuple(
        ((x, y - 0.9), (x + 0.45, y), (x, y + 0.45), (x - 0.45, y)) for x, y in ((3.0, 6.6), (2.2, 9.0), (3.4, 11.2))
    )
    hose = (_round((17.6, 12.4), 3.6, 5.0, 90, 200), _round((17.6, 12.4), 2.0, 3.4, 90, 195))
    return (
        Stroke(outlines=(box(2.0, 13.0, 15.4, 17.6),), closed=True, weight=0.35, fill=BRICK),
        Stroke(outlines=(teeth,), closed=True, weight=0.25, fill=HALF_BRICK),
        Stroke(outlines=(_round((8.6, 8.6), 1.1, 1.1),), closed=True, weight=0.25, fill=1.0),
        Stroke(outlines=(((1.4, 2.0), (3.0, 2.0), (3.0, 4.6)),), weight=0.7),
        Stroke(outlines=drops, closed=True, weight=0, fill=0.0),
        Stroke(outlines=hose, weight=0.5),
    )


def _whole() -> Marks:
    """An opening whose reveals are whole and half bricks, with nothing cut to fit."""
    bricks, halves = [], []
    for row in range(5):
        top = 3.2 + row * 2.8
        for x in (1.6, 18.4 - 5.2):
            whole = box(x, top, x + 5.2, top + 2.3)
            if row % 2 == 0:
                bricks.append(whole)
            else:
                first = x + (0.0 if x < 10 else 2.8)
                halves.append(box(first + (2.8 if x < 10 else -2.8), top, first + (5.2 if x < 10 else -0.4), top + 2.3))
                halves.append(box(first, top, first + 2.4, top + 2.3))
    tick = ((8.2, 10.4), (9.6, 12.2), (11.9, 7.6))
    return (
        Stroke(outlines=tuple(bricks), closed=True, weight=0.25, fill=BRICK),
        Stroke(outlines=tuple(halves), closed=True, weight=0.25, fill=HALF_BRICK),
        Stroke(outlines=(tick,), weight=0.8),
    )


def _place() -> Marks:
    """Bricks from two sides brought to one bench within a marked line, where each is cut once."""
    bench = box(7.0, 8.4, 13.0, 11.6)
    marked = box(4.4, 5.4, 15.6, 14.6)
    stacks = tuple(box(x, y, x + 2.6, y + 1.1) for x in (1.0, 16.4) for y in (8.0, 9.4, 10.8))
    arrows = (((4.0, 10.0), (6.4, 10.0)), ((5.6, 9.3), (6.4, 10.0), (5.6, 10.7)))
    mirrored = tuple(tuple((20.0 - x, y) for x, y in line) for line in arrows)
    return (
        Stroke(outlines=(marked,), closed=True, weight=0.35, dash=(1.6, 0.9)),
        Stroke(outlines=(bench,), closed=True, weight=0.35, fill=BRICK),
        Stroke(outlines=(((10.0, 7.4), (10.0, 12.6)),), weight=0.7),
        Stroke(outlines=stacks, closed=True, weight=0.18, fill=BRICK),
        Stroke(outlines=(*arrows, *mirrored), weight=0.25),
    )
