"""A drawing on paper: strokes and labels in millimetres, y downwards, ready for SVG or PDF."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import chain
from math import cos, radians, sin

Point = tuple[float, float]

SMALLEST_TYPE = 2.83  # mm: 8 pt, and no label on paper is smaller
_LETTERS = {
    **dict.fromkeys(" '.,:;ijl()ft/-rI1", 0.45),
    **dict.fromkeys("ABCDEFGHKLNOPQRSTUVXYZ", 0.77),
    **dict.fromkeys("mwMW½", 0.9),
}  # widths of letters to their size, none less than in the face that is printed
_LETTER = 0.67  # and of all others
_BELOW, _ABOVE = 0.25, 0.8  # how far letters reach below the line that they stand on, and above it, to their size


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """Line work of one weight: many separate outlines drawn as one path (one a kind of brick is fast).

    `outlines` are runs of points; `closed` joins each back to its start. `weight` is the pen in mm, 0 for
    none; `fill` a grey from 0 (black) to 1 (white), or None; `dash` lengths in mm.
    """

    outlines: tuple[tuple[Point, ...], ...]
    closed: bool = False
    weight: float = 0.25
    grey: float = 0.0
    fill: float | None = None
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words at a point: `size` in mm of type, `anchor` start, middle or end, `turn` degrees anticlockwise."""

    at: Point
    text: str
    size: float = 3.2
    anchor: str = "middle"
    turn: int = 0
    bold: bool = False
    of_scale: bool = False  # of a scale's bar or of the legend: it says nothing of what is asked

    @property
    def width(self) -> float:
        """How long the words are at most, in mm."""
        return sum(_LETTERS.get(letter, _LETTER) for letter in self.text) * self.size


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A finished drawing, `width` by `height` mm. `alt` is its alternative text.

    One drawn to a scale of 1 to `one_to`, or with more than one kind of brick (`legend`), has a foot that says so;
    `body` is the same picture without it.
    """

    width: float
    height: float
    marks: tuple[Stroke | Label, ...]
    alt: str
    clipped: bool = False  # whether what lies outside is cut off, as on one tile of a larger drawing
    one_to: float | None = None
    legend: tuple[str, ...] = ()
    body: Picture | None = None


def extent(mark: Stroke | Label) -> tuple[Point, ...]:
    """Points that the mark lies between: a stroke's own, the corners round a label's letters."""
    if isinstance(mark, Stroke):
        return tuple(chain.from_iterable(mark.outlines))
    wide = mark.width
    before = {"start": 0.0, "middle": -wide / 2, "end": -wide}[mark.anchor]
    c, s = cos(radians(mark.turn)), sin(radians(mark.turn))
    x, y = mark.at
    return tuple(
        (x + c * along - s * up, y - s * along - c * up)
        for along in (before, before + wide)
        for up in (-_BELOW * mark.size, _ABOVE * mark.size)
    )


def moved(mark: Stroke | Label, x: float, y: float) -> Stroke | Label:
    """The mark, so many mm to the right and down."""
    if isinstance(mark, Label):
        return replace(mark, at=(mark.at[0] + x, mark.at[1] + y))
    return Stroke(  # `replace` takes several times as long, and a drawing has thousands of outlines
        outlines=tuple([tuple([(px + x, py + y) for px, py in outline]) for outline in mark.outlines]),
        closed=mark.closed,
        weight=mark.weight,
        grey=mark.grey,
        fill=mark.fill,
        dash=mark.dash,
    )
