"""A drawing's wall put on paper: places in mm of wall to places on the page, and the frame that just holds them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick
from courseware.drawings.dimension import NAME, Marks, across, box, lane, name, plumb
from courseware.drawings.foot import footed
from courseware.drawings.hatching import hatching
from courseware.drawings.lines import CUT, FINE, GROUND, SEEN, SYMBOL, Line
from courseware.drawings.looks import LOOKS, bricks_of
from courseware.drawings.picture import Picture, Point, Stroke, extent, moved
from courseware.papers.sheets import DrawingCall

_MARGIN = 1.0  # mm of paper round the outermost mark
_PAST = 2.5  # mm of paper that a datum line runs past the wall
_TRIANGLE = 1.3  # half the width of the triangle that marks a level, in mm
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

    def bricks(self, laid: Iterable[PlacedBrick], kind: str | None = "whole", joint: Fraction = Fraction(10)) -> Marks:
        """Bricks of one kind of `looks.LOOKS`, or in outline alone; none where there are none of that kind."""
        outlines = tuple(self.box(b.left, b.bottom, b.right, b.top) for b in laid)
        if kind:
            return bricks_of(kind, outlines, fine=self.fine(joint))
        return ((FINE if self.fine(joint) else SEEN).stroke(*outlines, closed=True),) if outlines else ()

    def cut(self, laid: Iterable[PlacedBrick], kind: str | None = "whole") -> Marks:
        """Bricks cut through: a heavy outline, hatched, in the tone of their kind or in none."""
        outlines = tuple(self.box(b.left, b.bottom, b.right, b.top) for b in laid)
        return cut_through(outlines, kind)

    def fine(self, joint: Fraction) -> bool:
        """Whether such joints are so narrow at this scale that bricks want the finest pen."""
        return joint < _FINE * self.one_to

    def box(
        self, left: Fraction | float, bottom: Fraction | float, right: Fraction | float, top: Fraction | float
    ) -> tuple[Point, ...]:
        """The corners on paper of a rectangle on the wall."""
        return box(*self.at(left, top), *self.at(right, bottom))

    def rule(self, *places: Place, pen: Line = SYMBOL) -> Stroke:
        """A line through places on the wall, of a pen of the table."""
        return pen.stroke(tuple(self.at(*place) for place in places))


def sizes(
    call: DrawingCall, view: View, wide: Fraction, high: Fraction, names: tuple[str, str] = ("width", "height")
) -> Marks:
    """The two sizes of what stands at the view's own corner, as the call asks: one below it, one to its right."""
    across_name, up_name = names
    marks: Marks = ()
    if across_name in call.labels:
        line = view.at(0, 0)[1] + lane(call.labels)
        marks += across(view.at(0, 0), view.at(wide, 0), line, call.labels[across_name])
    if up_name in call.labels:
        line = view.at(wide, 0)[0] + lane(call.labels)
        marks += plumb(view.at(wide, 0), view.at(wide, high), line, call.labels[up_name])
    return marks


def datum(left: Point, right: Point, *says: str) -> Marks:
    """A heavy level line that runs a little past the wall, and to the left as far as its name, if it has one.

    The name's lines stand below it, its triangle on it.
    """
    if not says:
        return (GROUND.stroke(((left[0] - _PAST, left[1]), (right[0] + _PAST, right[1]))),)
    wide = max(name((0, 0), line).width for line in says)
    start = (left[0] - _PAST - wide, left[1])
    names = tuple(name((start[0], start[1] + (n + 1) * NAME * 1.15), line) for n, line in enumerate(says))
    return (GROUND.stroke((start, (right[0] + _PAST, right[1]))), level((start[0] + 2, start[1])), *names)


def cut_through(outlines: tuple[tuple[Point, ...], ...], kind: str | None = "whole") -> Marks:
    """What is cut through at these outlines on paper: a heavy edge, hatched, in the tone of its kind or in none."""
    if not outlines:
        return ()
    return (CUT.stroke(*outlines, closed=True, fill=LOOKS[kind].fill if kind else None), hatching(*outlines, apart=1.2))


def level(tip: Point) -> Stroke:
    """The triangle that stands on a level from which heights are taken."""
    x, y = tip
    return SYMBOL.stroke(((x, y), (x - _TRIANGLE, y - 2 * _TRIANGLE), (x + _TRIANGLE, y - 2 * _TRIANGLE)), closed=True)


def framed(marks: Marks, alt: str, one_to: float | None = None, legend: tuple[str, ...] = ()) -> Picture:
    """The picture that just holds the marks, moved so that its top left corner is at nought, with its foot.

    `one_to` is the scale for the bar, None for what is not to scale; `legend` the kinds of brick that are there.
    """
    across, down = zip(*(corner for mark in marks for corner in extent(mark)), strict=True)
    left, top = min(across) - _MARGIN, min(down) - _MARGIN
    right, bottom = max(across) + _MARGIN, max(down) + _MARGIN
    picture = Picture(
        width=round(right - left, 3),
        height=round(bottom - top, 3),
        marks=tuple(moved(mark, -left, -top) for mark in marks),
        alt=alt,
    )
    return footed(picture, one_to, legend)
