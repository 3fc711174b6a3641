"""How a shape of an SVG is drawn: pens, fills, type, and where transforms put it. Whatever else it asks is refused."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin, sqrt, tan

from courseware.banks.own_picture import NotDrawn, Point
from courseware.banks.svg_paths import number, numbers

Matrix = tuple[float, float, float, float, float, float]

# The sixteen names of CSS Color Level 3 (W3C), 4.1, and `grey`.
_NAMED = {
    "black": "#000000", "silver": "#c0c0c0", "gray": "#808080", "grey": "#808080", "white": "#ffffff",
    "maroon": "#800000", "red": "#ff0000", "purple": "#800080", "fuchsia": "#ff00ff", "green": "#008000",
    "lime": "#00ff00", "olive": "#808000", "yellow": "#ffff00", "navy": "#000080", "blue": "#0000ff",
    "teal": "#008080", "aqua": "#00ffff", "currentcolor": "#000000",
}  # fmt: skip
_UNITS = {"": 1.0, "px": 1.0, "mm": 96 / 25.4, "cm": 96 / 2.54, "in": 96.0, "pt": 96 / 72, "pc": 16.0}  # CSS pixels
_LENGTH = re.compile(r"([-+]?[0-9.]+(?:[eE][-+]?[0-9]{1,3})?)\s*(px|mm|cm|in|pt|pc|)", re.ASCII)
_TRANSFORM = re.compile(r"[\s,]*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)", re.ASCII)
_RGB = re.compile(r"rgb\(\s*([0-9]{1,3})\s*,\s*([0-9]{1,3})\s*,\s*([0-9]{1,3})\s*\)", re.ASCII)

# What changes nothing here, or nothing that paper shows, is passed over: none of it is kept.
_PASSED = {
    "id", "version", "baseProfile", "role", "lang", "color", "font-family", "font-style", "font-variant",
    "font-stretch", "letter-spacing", "word-spacing", "line-height", "text-align", "white-space", "stroke-linecap",
    "stroke-linejoin", "stroke-miterlimit", "stroke-dashoffset", "paint-order", "shape-rendering", "text-rendering",
    "vector-effect", "color-interpolation", "color-rendering", "image-rendering", "overflow", "enable-background",
    "pointer-events", "direction", "focusable", "font-feature-settings", "font-variant-ligatures", "font-variant-caps",
    "font-variant-numeric", "font-variant-east-asian", "clip-rule",
}  # fmt: skip
# What would change the picture is let by only where it says what is so without it.
_ONLY: Mapping[str, frozenset[str]] = {
    **dict.fromkeys(("opacity", "fill-opacity", "stroke-opacity"), frozenset({"1", "1.0", "100%"})),
    **dict.fromkeys(("clip-path", "mask", "filter", "marker", "marker-start", "marker-mid", "marker-end",
                     "text-decoration"), frozenset({"none"})),
    "fill-rule": frozenset({"nonzero"}),
    "display": frozenset({"inline", "block"}),
    "visibility": frozenset({"visible"}),
    "preserveAspectRatio": frozenset({"xMidYMid", "xMidYMid meet"}),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How what stands inside an element is drawn: lengths in the SVG's own units, `to` takes its points to paper."""

    to: Matrix = (1, 0, 0, 1, 0, 0)
    fill: float | None = 0.0
    stroke: float | None = None
    weight: float = 1.0
    dash: tuple[float, ...] = ()
    size: float = 16.0
    anchor: str = "start"
    bold: bool = False

    def put(self, point: Point) -> Point:
        """The point on paper of a point of the SVG."""
        a, b, c, d, e, f = self.to
        return a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f

    @property
    def scale(self) -> float:
        """How much longer lengths are on paper."""
        a, b, c, d, _, _ = self.to
        return sqrt(abs(a * d - b * c))


def styled(style: Style, attributes: Mapping[str, str], own: frozenset[str]) -> Style:
    """The style inside an element with these attributes, of which `own` belong to its shape.

    Raises `NotDrawn` for an attribute that would change the picture in a way that is not drawn.
    """
    said = {name: value.strip() for name, value in attributes.items() if name not in own and name != "style"}
    for piece in attributes.get("style", "").split(";"):
        name, colon, value = piece.partition(":")
        if colon:
            said[name.strip()] = value.strip()
    for name, value in said.items():
        _check(name, value)
    for name, value in said.items():
        if value != "inherit" and name in _SET:
            style = _SET[name](style, value)
    return style


def _check(name: str, value: str) -> None:
    passed = name in _PASSED or name.startswith(("-inkscape-", "data-", "aria-", "solid-"))
    if passed or name in _SET or value in _ONLY.get(name, ()):
        return
    if name in _ONLY:
        raise NotDrawn(f"`{name}` is `{value[:30]}`, which is not drawn", "draw it without that")
    raise NotDrawn(f"the attribute `{name[:30]}` is not among those that are drawn", "take it out")


def length(text: str) -> float:
    """A length in CSS pixels. Raises `NotDrawn`."""
    match = _LENGTH.fullmatch(text.strip())
    if not match:
        raise NotDrawn(f"`{text[:30]}` is not a length", "expected a number, alone or with px, mm, cm, in or pt")
    return number(match[1]) * _UNITS[match[2]]


def grey_of(text: str) -> float | None:
    """A colour as the grey it prints in, 0 black to 1 white; None for none. Raises `NotDrawn`.

    The weights of red, green and blue are those of ITU-R BT.709, item 3.2.
    """
    said = text.strip().lower()
    if said in ("none", "transparent"):
        return None
    said = _NAMED.get(said, said)
    if re.fullmatch(r"#[0-9a-f]{3}", said):
        said = "#" + "".join(character * 2 for character in said[1:])
    if re.fullmatch(r"#[0-9a-f]{6}", said):
        parts = [int(said[place : place + 2], 16) for place in (1, 3, 5)]
    elif match := _RGB.fullmatch(said):
        parts = [min(255, int(part)) for part in match.groups()]
    else:
        raise NotDrawn(f"`{text[:30]}` is not a plain colour", "expected none, #rrggbb, rgb(r, g, b) or a common name")
    red, green, blue = parts
    return round((0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255, 3)


def matrix_of(text: str) -> Matrix:
    """What a `transform` does, first to last. Raises `NotDrawn`."""
    found: Matrix = (1, 0, 0, 1, 0, 0)
    place = 0
    while text[place:].strip(" \t\r\n,"):
        match = _TRANSFORM.match(text, place)
        if not match:
            raise NotDrawn(f"the transform `{text[:30]}` cannot be read", "expected translate, scale, rotate or matrix")
        found = joined(found, _one(match[1], numbers(match[2])))
        place = match.end()
    return found


def joined(outer: Matrix, inner: Matrix) -> Matrix:
    """What `inner` and then `outer` do."""
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f


def _one(name: str, own: list[float]) -> Matrix:
    match name, own:
        case "matrix", [a, b, c, d, e, f]:
            return a, b, c, d, e, f
        case "translate", [x, *rest] if len(rest) < 2:
            return 1, 0, 0, 1, x, rest[0] if rest else 0
        case "scale", [x, *rest] if len(rest) < 2:
            return x, 0, 0, rest[0] if rest else x, 0, 0
        case "rotate", [turn, *rest] if len(rest) in (0, 2):
            c, s = cos(radians(turn)), sin(radians(turn))
            x, y = rest or (0.0, 0.0)
            return c, s, -s, c, x - c * x + s * y, y - s * x - c * y
        case "skewX", [turn]:
            return 1, 0, tan(radians(turn)), 1, 0, 0
        case "skewY", [turn]:
            return 1, tan(radians(turn)), 0, 1, 0, 0
    raise NotDrawn(f"`{name}` has {len(own)} numbers", "expected as many as it takes")


def _dash(style: Style, text: str) -> Style:
    pieces = [] if text == "none" else [length(piece) for piece in re.split(r"[\s,]+", text) if piece]
    if len(pieces) > 8 or any(piece < 0 for piece in pieces):
        raise NotDrawn(f"the dashes `{text[:30]}`", "expected up to 8 lengths")
    return replace(style, dash=tuple(pieces) if any(pieces) else ())


def _anchor(style: Style, text: str) -> Style:
    if text not in ("start", "middle", "end"):
        raise NotDrawn(f"`{text[:30]}` is not a text-anchor", "expected start, middle or end")
    return replace(style, anchor=text)


def _weight(style: Style, text: str) -> Style:
    weight = length(text)
    if weight < 0:
        raise NotDrawn("the pen is below 0", "expected a width of 0 or more")
    return replace(style, weight=weight)


def _bold(style: Style, text: str) -> Style:
    return replace(style, bold=text in ("bold", "bolder", "600", "700", "800", "900"))


def upright(matrix: Matrix) -> bool:
    """Whether words keep their shape: turned and made larger or smaller alike in both directions, not mirrored."""
    a, b, c, d, _, _ = matrix
    slack = 0.01 * hypot(a, b)
    return abs(a - d) <= slack and abs(b + c) <= slack


_SET: Mapping[str, Callable[[Style, str], Style]] = {
    "fill": lambda style, text: replace(style, fill=grey_of(text)),
    "stroke": lambda style, text: replace(style, stroke=grey_of(text)),
    "stroke-width": _weight,
    "stroke-dasharray": _dash,
    "font-size": lambda style, text: replace(style, size=length(text)),
    "font-weight": _bold,
    "text-anchor": _anchor,
    "transform": lambda style, text: replace(style, to=joined(style.to, matrix_of(text))),
}
