"""A drawing on paper: strokes and labels in millimetres, y downwards, ready for SVG or PDF."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A finished drawing, `width` by `height` mm. `alt` is its alternative text."""

    width: float
    height: float
    marks: tuple[Stroke | Label, ...]
    alt: str
    clipped: bool = False  # whether what lies outside is cut off, as on one tile of a larger drawing
