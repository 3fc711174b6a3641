"""A sheet's PDF: its template filled with finished text, its drawings made, its code and gauge scale drawn."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.drawings import draw
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.papers.sheets import DrawingCall, Key, Paper
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
        **_pictures(drawings),
    }
    return render(_templates().get_template("paper.html").render(paper=paper), pictures)


def key_pdf(key: Key) -> bytes:
    """The tutor's PDF."""
    drawings = {exercise.asked.number: exercise.drawing for exercise in key.exercises}
    pictures = {"scale": gauge_scale(key.scale), "line": print_line(), **_pictures(drawings)}
    return render(_templates().get_template("key.html").render(key=key), pictures)


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
    marks = [float(mark) for mark in gauge_rod(int(_SCALE_LENGTH / brick.course), brick)]
    foot, left = marks[-1] + 8, 14.0
    rules = [((left, 8.0), (left, foot)), ((left - 5, foot), (left, foot))]
    rules += [((left - (5 if n % 3 == 0 else 3), foot - mark), (left, foot - mark)) for n, mark in enumerate(marks, 1)]
    labels = [
        Label(at=(left - 6, foot - mark + 1), text=str(n), size=3, anchor="end")
        for n, mark in enumerate(marks, 1)
        if n % 3 == 0
    ]
    labels.append(Label(at=(left - 2.2, (8 + foot) / 2), text=f"gauge, true size: {brick.name}", size=2.6, turn=90))
    return Picture(
        width=20, height=263, marks=(Stroke(outlines=tuple(rules), weight=0.25), *labels), alt="A gauge scale"
    )


def print_line() -> Picture:
    """The 100 mm line that shows whether the printer kept the size."""
    rules = (
        ((2.0, 2.0), (2.0 + _PRINT_LINE, 2.0)),
        ((2.0, 0.5), (2.0, 3.5)),
        ((2.0 + _PRINT_LINE, 0.5), (2.0 + _PRINT_LINE, 3.5)),
    )
    says = Label(at=(52.0, 6.0), text="100 mm: if it does not measure 100, the gauge scale is not true", size=2.6)
    return Picture(width=104, height=9, marks=(Stroke(outlines=rules), says), alt="A line of 100 mm")


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
