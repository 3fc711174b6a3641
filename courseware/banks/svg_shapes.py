"""The elements of an SVG that are drawn, by their attributes: lines, boxes, ellipses and paths as runs of points.

After Scalable Vector Graphics 1.1 (W3C, second edition), chapters 7 and 9.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from courseware.banks.own_picture import NotDrawn, Point
from courseware.banks.svg_paths import ellipse, number, numbers, path_runs, points_of, rounded_box
from courseware.banks.svg_style import length

_MM = 25.4 / 96  # of a CSS pixel
OF_SHAPE = {
    "line": frozenset({"x1", "y1", "x2", "y2"}),
    "rect": frozenset({"x", "y", "width", "height", "rx", "ry"}),
    "circle": frozenset({"cx", "cy", "r"}),
    "ellipse": frozenset({"cx", "cy", "rx", "ry"}),
    "polyline": frozenset({"points"}),
    "polygon": frozenset({"points"}),
    "path": frozenset({"d"}),
    "g": frozenset[str](),
    "text": frozenset({"x", "y", "dx", "dy"}),
    "tspan": frozenset({"x", "y", "dx", "dy"}),
}


def plain(attributes: Mapping[str, str]) -> dict[str, str]:
    """The attributes without those of other kinds of markup, which draw nothing; a link among them is refused."""
    if any(name.rpartition(" ")[2] == "href" for name in attributes):
        raise NotDrawn("a link (href)", "take it out")
    return {name: value for name, value in attributes.items() if " " not in name}


def to_paper(attributes: Mapping[str, str]) -> float:
    """How many mm each of the SVG's own units is: by its width and height against its viewBox; else as CSS pixels."""
    box = numbers(attributes.get("viewBox", ""))
    if not box:
        return _MM
    if len(box) != 4 or box[2] <= 0 or box[3] <= 0:
        raise NotDrawn("`viewBox` is not as it should be", "expected four numbers, width and height above 0")
    sides = [
        length(attributes[name]) * _MM / side
        for name, side in (("width", box[2]), ("height", box[3]))
        if name in attributes and not attributes[name].strip().endswith("%")
    ]
    by = min(sides, default=_MM)
    if by <= 0:
        raise NotDrawn("the picture has no size", "expected width and height above 0")
    return by


def along(text: str, size: float) -> float:
    """A length in CSS pixels that may be in `em` of type of this size. Raises `NotDrawn`."""
    said = text.strip()
    return number(said[:-2]) * size if said.endswith("em") else length(said)


def runs_of(name: str, said: Mapping[str, str]) -> Iterator[tuple[list[Point], bool]]:
    """The runs of a shape, each with whether it is closed."""

    def at(key: str, otherwise: str = "0") -> float:
        return length(said.get(key, otherwise))

    if any(at(key) < 0 for key in ("width", "height", "r", "rx", "ry") if key in said):
        raise NotDrawn(f"a size of the {name} is below 0", "expected 0 or more")
    if name == "path":
        yield from path_runs(said.get("d", ""))
    elif name in ("polyline", "polygon"):
        yield points_of(said.get("points", "")), name == "polygon"
    elif name == "line":
        yield [(at("x1"), at("y1")), (at("x2"), at("y2"))], False
    elif name == "rect":
        round_x, round_y = said.get("rx", said.get("ry", "0")), said.get("ry", said.get("rx", "0"))
        sides = at("width"), at("height")
        if all(sides):
            yield rounded_box(at("x"), at("y"), *sides, length(round_x), length(round_y)), True
    else:
        radii = (at("r"), at("r")) if name == "circle" else (at("rx"), at("ry"))
        if all(radii):
            yield ellipse((at("cx"), at("cy")), *radii), True
