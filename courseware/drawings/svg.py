"""A picture as SVG: one file, no style sheet, the same bytes every time."""

from __future__ import annotations

from collections.abc import Callable
from xml.sax.saxutils import escape, quoteattr

from courseware.drawings.picture import Label, Picture, Point, Stroke

FACES = "Atkinson Hyperlegible Next, DejaVu Sans, sans-serif"


def by_points(mark: Stroke) -> str:
    """A stroke's outlines as the data of a path, point by point."""
    end = "Z" if mark.closed else ""
    return "".join(f"M{'L'.join([_point(point) for point in outline])}{end}" for outline in mark.outlines)


def to_svg(picture: Picture, outlines: Callable[[Stroke], str] = by_points) -> str:
    """The picture as a well-formed SVG document in mm, with its alternative text as the root's own title.

    `outlines` writes a stroke's as the data of a path.
    """
    wide, high = figure(picture.width), figure(picture.height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}"'
        f' role="img" font-family={quoteattr(FACES)}>',
        f"<title>{escape(picture.alt)}</title>",
        *(_path(mark, outlines) if isinstance(mark, Stroke) else _text(mark) for mark in picture.marks),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def figure(value: float) -> str:
    """A length to three places, without the noughts that say nothing.

    >>> figure(12.5), figure(-0.0001), figure(3.0)
    ('12.5', '0', '3')
    """
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _path(mark: Stroke, outlines: Callable[[Stroke], str]) -> str:
    pen = f' stroke="{_grey(mark.grey)}" stroke-width="{figure(mark.weight)}"' if mark.weight else ""
    dash = f' stroke-dasharray="{" ".join(figure(length) for length in mark.dash)}"' if mark.dash else ""
    fill = "none" if mark.fill is None else _grey(mark.fill)
    return f'<path d="{outlines(mark)}" fill="{fill}"{pen}{dash}/>'


def _text(mark: Label) -> str:
    x, y = (figure(part) for part in mark.at)
    turn = f' transform="rotate({-mark.turn} {x} {y})"' if mark.turn else ""
    weight = ' font-weight="bold"' if mark.bold else ""
    anchor = "" if mark.anchor == "start" else f' text-anchor="{mark.anchor}"'
    return f'<text x="{x}" y="{y}" font-size="{figure(mark.size)}"{anchor}{weight}{turn}>{escape(mark.text)}</text>'


def _point(point: Point) -> str:
    return f"{figure(point[0])} {figure(point[1])}"


def _grey(grey: float) -> str:
    level = round(grey * 255)
    return f"#{level:02x}{level:02x}{level:02x}"
