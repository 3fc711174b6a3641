"""A sheet's PDF: its template filled with finished text, its drawings made, its code and gauge scale drawn."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.banks.figures import half_up, write_out
from courseware.drawings import draw
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.papers.sheets import DrawingCall, Grid, Key, Paper
from courseware.printing.engine import render
from courseware.trade import Format, gauge_rod

if TYPE_CHECKING:
    from jinja2 import Environment

_QR_MODULE = 0.9  # mm
_SCALE_LENGTH, _PRINT_LINE = 240, 100  # mm


def paper_pdf(paper: Paper) -> bytes:
    """The learner's PDF."""
    drawings = {exercise.number: exercise.drawing for exercise in paper.exercises}
    pictures = {
        "qr": qr(paper.heading.code),
        "scale": gauge_scale(paper.scale),
        "line": print_line(),
        "grid": squared(),
        **_pictures(drawings),
    }
    return render(_templates().get_template("paper.html").render(paper=paper), pictures)


def key_pdf(key: Key) -> bytes:
    """The tutor's PDF."""
    drawings = {exercise.asked.number: exercise.drawing for exercise in key.exercises}
    pictures = {"scale": gauge_scale(key.scale), "line": print_line(), **_pictures(drawings)}
    return render(_templates().get_template("key.html").render(key=key), pictures)


def furniture(paper: Paper) -> tuple[str, ...]:
    """The words that the margins of a paper's pages draw."""
    pictures = (gauge_scale(paper.scale), print_line())
    return tuple(mark.text for picture in pictures for mark in picture.marks if isinstance(mark, Label))


def grid_pdf(grid: Grid) -> bytes:
    """The tutor's class grid as a PDF, on landscape sheets."""
    return render(_templates().get_template("grid.html").render(grid=grid), {})


def qr(code: str) -> Picture:
    """A paper's code as a QR code (ISO/IEC 18004), level Q, border 4."""
    import segno

    rows = list(segno.make_qr(code, error="q").matrix_iter(border=4))
    side = len(rows) * _QR_MODULE
    squares = tuple(
        _box(x * _QR_MODULE, y * _QR_MODULE, (x + 1) * _QR_MODULE, (y + 1) * _QR_MODULE)
        for y, row in enumerate(rows)
        for x, dark in enumerate(row)
        if dark
    )
    dark = Stroke(outlines=squares, closed=True, weight=0, fill=0.0)
    return Picture(width=side, height=side, marks=(dark,), alt="")


def gauge_scale(brick: Format) -> Picture:
    """The margin's true-size gauge scale, a tick a course and numbered every third, and a 100 mm line below it."""
    tops = [float(mark) for mark in gauge_rod(int(_SCALE_LENGTH / brick.course), brick)]
    foot, left = tops[-1] + 4, 11.0
    right = left + 7
    bricks = tuple(_box(left, foot - top, right, foot - top + float(brick.height)) for top in tops)
    ticks = tuple(((right, foot - top), (right + 2.5, foot - top)) for top in (0.0, *tops))
    numbers = tuple(
        Label(at=((left + right) / 2, foot - top + 5), text=str(n), size=4, bold=True)
        for n, top in enumerate(tops, 1)
        if n % 3 == 0
    )
    course, bed = (write_out(half_up(size, 1)) for size in (brick.course, brick.bed))
    says = f"Course gauge at true size, {course} mm: {brick.name}, bed {bed} mm"
    return Picture(
        width=20,
        height=262,
        marks=(
            Stroke(outlines=bricks, closed=True, weight=0.25),
            Stroke(outlines=ticks, weight=0.35),
            *numbers,
            Label(at=(left - 1.8, foot - tops[-1] / 2), text=says, size=2.9, turn=90),
        ),
        alt="A gauge scale",
    )


def print_line() -> Picture:
    """The 100 mm line that shows whether the printer kept the size."""
    rules = (
        ((2.0, 2.0), (2.0 + _PRINT_LINE, 2.0)),
        ((2.0, 0.5), (2.0, 3.5)),
        ((2.0 + _PRINT_LINE, 0.5), (2.0 + _PRINT_LINE, 3.5)),
    )
    says = Label(
        at=(52.0, 6.2), text="This line is 100 mm long. If yours is not, print again without scaling.", size=2.9
    )
    return Picture(width=104, height=9, marks=(Stroke(outlines=rules), says), alt="A line of 100 mm")


def squared() -> Picture:
    """Space to draw in, ruled in squares of 5 mm."""
    width, height = 160, 70
    rules = [((float(x), 0.0), (float(x), float(height))) for x in range(0, width + 1, 5)]
    rules += [((0.0, float(y)), (float(width), float(y))) for y in range(0, height + 1, 5)]
    return Picture(width=width, height=height, marks=(Stroke(outlines=tuple(rules), weight=0.1, grey=0.4),), alt="")


def _pictures(drawings: Mapping[int, DrawingCall | None]) -> dict[str, Picture]:
    return {f"drawing-{number}": draw(call) for number, call in drawings.items() if call}


def _box(left: float, top: float, right: float, bottom: float) -> tuple[tuple[float, float], ...]:
    return (left, top), (right, top), (right, bottom), (left, bottom)


@lru_cache(maxsize=1)
def _templates() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"), autoescape=True, undefined=StrictUndefined
    )
