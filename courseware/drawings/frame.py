"""A drawing's wall put on paper: places in mm of wall to places on the page, and the frame that just holds them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, cos, radians, sin

from courseware.drawings.bond import PlacedBrick
from courseware.drawings.dimension import LANE, NAME, Marks, across, box, name, upright
from courseware.drawings.picture import Label, Picture, Point, Stroke
from courseware.papers.sheets import DrawingCall

BRICK, HALF_BRICK, PROJECTING = 0.92, 0.8, 0.66  # greys that stay apart on a photocopy, with an outline to each brick
CHAIN = (4.0, 1.0, 0.6, 1.0)  # mm of paper: long dash, gap, dot, gap, as centre lines are drawn
_MARGIN = 1.0  # mm of paper round the outermost mark
_LETTER = 0.6  # width of a letter to its size, wider than the face is on average
_PAST = 2.5  # mm of paper that a datum line runs past the wall
_NAMED = 0.5  # and for each letter of its name, to the size of the letters
_FINE = 0.3  # mm of paper: a joint thinner than this has its bricks outlined with the finest pen

Place = tuple[Fraction | float, Fraction | float]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One view of brickwork at a scale of 1 to `one_to`, its datum's left end at `origin` on the paper."""

    one_to: int
    origin: Point = (0.0, 0.0)

    def at(self, x: Fraction | float, y: Fraction | float) -> Point:
        """The point on paper of a place on the wall."""
        return self.origin[0] + float(x) / self.one_to, self.origin[1] - float(y) / self.one_to

    def bricks(self, laid: Iterable[PlacedBrick], fill: float | None = BRICK, joint: Fraction = Fraction(10)) -> Marks:
        """Bricks of one kind as one stroke: none where there are none of that kind."""
        outlines = tuple(self.box(b.left, b.bottom, b.right, b.top) for b in laid)
        pen = 0.18 if joint >= _FINE * self.one_to else 0.12
        return (Stroke(outlines=outlines, closed=True, weight=pen, fill=fill),) if outlines else ()

    def box(
        self, left: Fraction | float, bottom: Fraction | float, right: Fraction | float, top: Fraction | float
    ) -> tuple[Point, ...]:
        """The corners on paper of a rectangle on the wall."""
        return box(*self.at(left, top), *self.at(right, bottom))

    def rule(self, *places: Place, weight: float = 0.25, dash: tuple[float, ...] = ()) -> Stroke:
        """A line through places on the wall."""
        return Stroke(outlines=(tuple(self.at(*place) for place in places),), weight=weight, dash=dash)


def sizes(
    call: DrawingCall, view: View, wide: Fraction, high: Fraction, names: tuple[str, str] = ("width", "height")
) -> Marks:
    """The two sizes of what stands at the view's own corner, as the call asks: one below it, one to its right."""
    across_name, up_name = names
    marks: Marks = ()
    if across_name in call.labels:
        line = view.at(0, 0)[1] + LANE
        marks += across(view.at(0, 0), view.at(wide, 0), line, call.labels[across_name])
    if up_name in call.labels:
        line = view.at(wide, 0)[0] + LANE
        marks += upright(view.at(wide, 0), view.at(wide, high), line, call.labels[up_name])
    return marks


def datum(left: Point, right: Point, says: str = "") -> Marks:
    """A heavy level line that runs a little past the wall, and to the left as far as its name, if it has one."""
    start = (left[0] - _PAST - len(says) * NAME * _NAMED, left[1])
    line = Stroke(outlines=((start, (right[0] + _PAST, right[1])),), weight=0.5)
    return (line, name((start[0], start[1] + NAME), says)) if says else (line,)


def hatching(*outlines: tuple[Point, ...], apart: float = 1.6, level: bool = False) -> Stroke:
    """Lines within convex outlines on paper, as on what is cut: at 45 degrees, lower left to upper right, or level.

    An outline too small for two lines has one through its middle.
    """
    return Stroke(
        outlines=tuple(line for outline in outlines for line in _lines_in(outline, apart, level)), weight=0.12
    )


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


def framed(marks: Marks, alt: str) -> Picture:
    """The picture that just holds the marks, moved so that its top left corner is at nought."""
    corners = [corner for mark in marks for corner in extent(mark)]
    left, top = min(x for x, _ in corners) - _MARGIN, min(y for _, y in corners) - _MARGIN
    right, bottom = max(x for x, _ in corners) + _MARGIN, max(y for _, y in corners) + _MARGIN
    return Picture(
        width=round(right - left, 3),
        height=round(bottom - top, 3),
        marks=tuple(moved(mark, -left, -top) for mark in marks),
        alt=alt,
    )


def extent(mark: Stroke | Label) -> tuple[Point, ...]:
    """Points that the mark lies between: a stroke's own, the corners round a label's letters."""
    if isinstance(mark, Stroke):
        return tuple(point for outline in mark.outlines for point in outline)
    wide = len(mark.text) * mark.size * _LETTER
    before = {"start": 0.0, "middle": -wide / 2, "end": -wide}[mark.anchor]
    c, s = cos(radians(mark.turn)), sin(radians(mark.turn))
    x, y = mark.at
    return tuple(
        (x + c * along - s * up, y - s * along - c * up)
        for along in (before, before + wide)
        for up in (-0.25 * mark.size, 0.8 * mark.size)
    )


def moved(mark: Stroke | Label, x: float, y: float) -> Stroke | Label:
    """The mark, so many mm to the right and down."""
    if isinstance(mark, Label):
        return replace(mark, at=(mark.at[0] + x, mark.at[1] + y))
    return replace(mark, outlines=tuple(tuple((px + x, py + y) for px, py in outline) for outline in mark.outlines))
