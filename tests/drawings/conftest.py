"""What the tests of drawings share: a call for a drawing, and an SVG read back as a bricklayer reads it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw, to_svg
from courseware.drawings.looks import LOOKS
from courseware.drawings.scale import SCALES
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC, Format

BRICK, HALF_BRICK, SOLDIER, PROJECTING = (LOOKS[kind].fill for kind in ("whole", "half", "soldier", "out"))
SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A rectangle read from an SVG, in mm of paper, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A drawing read back from its SVG."""

    stretchers: tuple[Rectangle, ...]
    halves: tuple[Rectangle, ...]
    projecting: tuple[Rectangle, ...]
    white: tuple[Rectangle, ...]  # rectangles filled white: boxes to write in, and voids
    texts: tuple[str, ...]
    lines: tuple[tuple[tuple[float, float], ...], ...]  # every run of points that is not closed
    root: ElementTree.Element

    @property
    def bricks(self) -> tuple[Rectangle, ...]:
        return self.stretchers + self.halves

    def courses(self) -> list[list[Rectangle]]:
        """The grey bricks course by course from the lowest, each from the left."""
        tops = sorted({round(brick.top, 1) for brick in self.bricks}, reverse=True)
        return [sorted((b for b in self.bricks if round(b.top, 1) == top), key=lambda b: b.left) for top in tops]


Points = list[tuple[float, float]]


def runs(root: ElementTree.Element) -> Iterator[tuple[dict[str, str], bool, Points]]:
    """Every run of points of every path: the path's attributes, whether it is closed, and the points."""
    for path in root.iter(f"{SVG}path"):
        for run in path.attrib["d"].split("M")[1:]:
            points = [(float(x), float(y)) for x, y in (point.split() for point in run.rstrip("Z").split("L"))]
            yield path.attrib, run.endswith("Z"), points


def read(svg: str) -> Sheet:
    root = ElementTree.fromstring(svg)
    by_fill: dict[str, list[Rectangle]] = {}
    lines = []
    for attributes, closed, points in runs(root):
        if closed and len(points) == 4:
            xs, ys = [x for x, _ in points], [y for _, y in points]
            whole = Rectangle(left=min(xs), top=min(ys), right=max(xs), bottom=max(ys))
            by_fill.setdefault(attributes["fill"], []).append(whole)
        elif not closed:
            lines.append(tuple(points))
    found = {
        grey: tuple(by_fill.get("#" + f"{round(grey * 255):02x}" * 3, ()))
        for grey in (BRICK, HALF_BRICK, PROJECTING, 1.0)
    }
    return Sheet(
        stretchers=found[BRICK],
        halves=found[HALF_BRICK],
        projecting=found[PROJECTING],
        white=found[1.0],
        texts=tuple(text.text or "" for text in root.iter(f"{SVG}text")),
        lines=tuple(lines),
        root=root,
    )


def call_for(
    kind: str, labels: dict[str, str | None] | None = None, format: Format = UK_METRIC, **figures: Fraction | int | str
) -> DrawingCall:
    """A call for this drawing, every dimension blank unless labels are given."""
    known = DRAWING_KINDS[kind]
    exact = {
        name: figure if isinstance(figure, str) and figure.isalpha() else Fraction(figure)
        for name, figure in {**known.optional, **figures}.items()
    }
    blank: dict[str, str | None] = dict.fromkeys(known.dimensions)
    return DrawingCall(
        kind=kind, figures=exact, labels=blank if labels is None else labels, format=format, alt="A drawing of bricks."
    )


def body_of(call: DrawingCall) -> str:
    """The SVG of what is drawn, without the scale's bar and the legend below it."""
    picture = draw(call)
    return to_svg(picture.body or picture)


@pytest.fixture(scope="session")
def calling():
    return call_for


@pytest.fixture(scope="session")
def drawn():
    """Draws a kind and reads it back from its SVG."""

    def drawn(kind, labels=None, format=UK_METRIC, **figures):
        return read(body_of(call_for(kind, labels, format, **figures)))

    return drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class OnWall:
    """What is drawn, put back on the wall: mm of wall, y upwards, from the lower left corner of what was measured."""

    pieces: dict[float, tuple[Polygon, ...]]  # closed outlines by the grey they are filled with
    frame: Polygon | None  # the outline of an opening: heavy and not filled
    lines: tuple[tuple[LineString, str], ...]  # runs that are not closed, each with its dash
    one_to: int

    @property
    def all_pieces(self) -> list[Polygon]:
        return [piece for found in self.pieces.values() for piece in found]


def shade(grey: float) -> str:
    """A grey as an SVG says it."""
    return "#" + f"{round(grey * 255):02x}" * 3


def outlines(sheet: Sheet, grey: float) -> list[Polygon]:
    """What is filled with a grey, whatever its shape, on paper with y downwards, in the order drawn."""
    fill = shade(grey)
    return [Polygon(points) for attributes, closed, points in runs(sheet.root) if closed and attributes["fill"] == fill]


def pens(sheet: Sheet, weight: str, *, dashed: bool = False) -> list[LineString]:
    """The runs that are not closed and drawn with this pen, dashed or not."""
    return [
        LineString(points)
        for attributes, closed, points in runs(sheet.root)
        if not closed and attributes.get("stroke-width") == weight and ("stroke-dasharray" in attributes) is dashed
    ]


def boxes(sheet: Sheet, fill: str) -> list[Rectangle]:
    """The rectangles of one fill ("none" where there is none), from the left and then from below."""
    found = []
    for attributes, closed, points in runs(sheet.root):
        if closed and len(points) == 4 and attributes["fill"] == fill:
            xs, ys = [x for x, _ in points], [y for _, y in points]
            found.append(Rectangle(left=min(xs), top=min(ys), right=max(xs), bottom=max(ys)))
    return sorted(found, key=lambda box: (round(box.left, 2), -box.top))


def level_dimensions(sheet: Sheet) -> list[tuple[float, float, float]]:
    """Level dimensions: from where to where, and at what height, by the oblique strokes at their ends."""
    ends: dict[float, list[float]] = {}
    for attributes, closed, points in runs(sheet.root):
        if not closed and attributes.get("stroke-width") == "0.35" and len(points) == 2:
            (x1, y1), (x2, y2) = points
            ends.setdefault(round((y1 + y2) / 2, 2), []).append((x1 + x2) / 2)
    return [(min(xs), max(xs), y) for y, xs in sorted(ends.items()) if len(xs) == 2]


def plumb_dimensions(sheet: Sheet) -> dict[float, list[float]]:
    """Plumb dimensions: where each line stands across the paper, with the heights of its ends from the lowest."""
    ends: dict[float, set[float]] = {}
    for attributes, closed, points in runs(sheet.root):
        if not closed and attributes.get("stroke-width") == "0.35" and len(points) == 2:
            (x1, y1), (x2, y2) = points
            if x1 < x2 and y1 > y2:  # the oblique stroke, lower left to upper right
                ends.setdefault(round((x1 + x2) / 2, 2), set()).add(round((y1 + y2) / 2, 2))
    return {x: sorted(ys, reverse=True) for x, ys in sorted(ends.items()) if len(ys) > 1}


def level_of(sheet: Sheet, says: str) -> float:
    """The height on paper of the level with this name: where the point of its triangle is."""
    [text] = [text for text in sheet.root.iter(f"{SVG}text") if text.text == says]
    x, y = float(text.attrib["x"]), float(text.attrib["y"])
    triangles = [points for _, closed, points in runs(sheet.root) if closed and len(points) == 3]
    near = min(triangles, key=lambda points: abs(points[0][0] - x) + abs(points[0][1] - y))
    return near[0][1]


def on_wall(sheet: Sheet, wide: Fraction | float) -> OnWall:
    """The drawing in mm of wall, `wide` the width of what it shows: the opening if there is one, else all its bricks.

    The scale that comes out of it must be a usual one, to within what three places of a mm of paper can say.
    """
    found = list(runs(sheet.root))
    frames = [
        p for a, closed, p in found if closed and a["fill"] == "none" and a.get("stroke-width") in ("0.35", "0.5")
    ]
    pieces = [(a["fill"], points) for a, closed, points in found if closed and a["fill"] != "none"]
    lines = [(points, a.get("stroke-dasharray", "")) for a, closed, points in found if not closed]
    measured = frames[0] if frames else [point for _, points in pieces for point in points]
    xs, ys = [x for x, _ in measured], [y for _, y in measured]
    scale = float(wide) / (max(xs) - min(xs))
    one_to = min(SCALES, key=lambda n: abs(n - scale))
    assert scale == pytest.approx(one_to, rel=2e-4)

    def placed(points: Points) -> Points:
        return [((x - min(xs)) * one_to, (max(ys) - y) * one_to) for x, y in points]

    by_fill: dict[float, list[Polygon]] = {}
    for fill, points in pieces:
        by_fill.setdefault(round(int(fill[1:3], 16) / 255, 2), []).append(Polygon(placed(points)))
    return OnWall(
        pieces={grey: tuple(found) for grey, found in by_fill.items()},
        frame=Polygon(placed(frames[0])) if frames else None,
        lines=tuple((LineString(placed(points)), dash) for points, dash in lines),
        one_to=one_to,
    )


def spread(pieces: list[Polygon], joint: float) -> tuple[Polygon, float]:
    """Every piece made wider by half a joint all round: what they cover together, and what they cover twice.

    Pieces that stand a joint apart everywhere, and a half joint from an edge, cover it once and without gaps.
    """
    wider = [piece.buffer(joint / 2, join_style="mitre", mitre_limit=10) for piece in pieces]
    together = unary_union(wider)
    return together, sum(piece.area for piece in wider) - together.area
