"""What the tests of drawings share: a call for a drawing, and an SVG read back as a bricklayer reads it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from xml.etree import ElementTree

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw, to_svg
from courseware.drawings.frame import BRICK, HALF_BRICK, PROJECTING
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC, Format

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


def read(svg: str) -> Sheet:
    root = ElementTree.fromstring(svg)
    by_fill: dict[str, list[Rectangle]] = {}
    lines = []
    for path in root.iter(f"{SVG}path"):
        for run in path.attrib["d"].split("M")[1:]:
            points = [tuple(float(part) for part in point.split()) for point in run.rstrip("Z").split("L")]
            if run.endswith("Z") and len(points) == 4:
                xs, ys = [x for x, _ in points], [y for _, y in points]
                whole = Rectangle(left=min(xs), top=min(ys), right=max(xs), bottom=max(ys))
                by_fill.setdefault(path.attrib["fill"], []).append(whole)
            elif not run.endswith("Z"):
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


@pytest.fixture(scope="session")
def calling():
    return call_for


@pytest.fixture(scope="session")
def drawn():
    """Draws a kind and reads it back from its SVG."""

    def drawn(kind, labels=None, format=UK_METRIC, **figures):
        return read(to_svg(draw(call_for(kind, labels, format, **figures))))

    return drawn
