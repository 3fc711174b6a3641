"""Hatching: what is cut, by lines within its outline."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, sqrt

from courseware.drawings.lines import FINE
from courseware.drawings.picture import Point, Stroke

APART = 1.6  # mm of paper from line to line, along a side
_LEAST = 0.7  # mm between two parallel lines (tests/authorities/iso-128.txt)


def hatching(*outlines: tuple[Point, ...], apart: float = APART, level: bool = False) -> Stroke:
    """Lines within convex outlines on paper, as on what is cut: at 45 degrees, lower left to upper right, or level.

    `apart` is from line to line along a side, and never so little that lines run together. An outline too small for
    two lines has one through its middle.
    """
    apart = max(apart, _LEAST if level else _LEAST * sqrt(2))
    return FINE.stroke(*(line for outline in outlines for line in _lines_in(outline, apart, level)))


def _lines_in(outline: tuple[Point, ...], apart: float, level: bool) -> Iterator[tuple[Point, ...]]:
    downs = [y if level else x + y for x, y in outline]  # what is the same all along a line
    first, last = min(downs), max(downs)
    step = min(apart, (last - first) / 2)
    for n in range(1, ceil((last - first) / step)):
        down = first + n * step
        ends = []
        for place, (x, y) in enumerate(outline):
            here, there = downs[place - 1], downs[place]
            if (here < down) is not (there < down):
                part, (x_before, y_before) = (down - there) / (here - there), outline[place - 1]
                ends.append((x + part * (x_before - x), y + part * (y_before - y)))
        if ends:  # none where a line falls on the last corner, as rounding has it
            yield tuple(sorted(ends))
