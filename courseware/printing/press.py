"""A sheet's PDF: its template filled with finished text, its drawings made, its margins and working room drawn."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.drawings import draw
from courseware.drawings.picture import Label, Picture
from courseware.jobs.sheets import JobSheet
from courseware.papers.sheets import DrawingCall, Grid, Key, Paper
from courseware.printing.engine import render
from courseware.printing.furniture import gauge_scale, print_line, qr, squared, working_room

if TYPE_CHECKING:
    from jinja2 import Environment


def paper_pdf(paper: Paper) -> bytes:
    """The learner's PDF."""
    return render(_templates().get_template("paper.html").render(paper=paper), paper_pictures(paper))


def key_pdf(key: Key) -> bytes:
    """The tutor's PDF."""
    return render(_templates().get_template("key.html").render(key=key), key_pictures(key))


def grid_pdf(grid: Grid) -> bytes:
    """The tutor's class grid as a PDF, on landscape sheets."""
    return render(_templates().get_template("grid.html").render(grid=grid), {})


def job_pdf(sheet: JobSheet) -> bytes:
    """One sheet of a job as a PDF."""
    drawn = {f"block-{n}": block.picture for n, block in enumerate(sheet.blocks, 1) if block.picture}
    return render(_templates().get_template("job.html").render(sheet=sheet), {"line": print_line(), **drawn})


def paper_pictures(paper: Paper) -> dict[str, Picture]:
    """Every picture of a paper by the name its template gives it."""
    rooms = {
        f"work-{part.label}": working_room(part.unit, steps=part.marks > 1)
        for exercise in paper.exercises
        for part in exercise.parts
        if part.kind == "number"
    }
    drawings = {exercise.number: exercise.drawing for exercise in paper.exercises}
    return {
        "qr": qr(paper.heading.code),
        "scale": gauge_scale(paper.scale),
        "line": print_line(),
        "grid": squared(),
        **rooms,
        **_drawn(drawings),
    }


def key_pictures(key: Key) -> dict[str, Picture]:
    """Every picture of a key by the name its template gives it."""
    drawings = {exercise.asked.number: exercise.drawing for exercise in key.exercises}
    return {"scale": gauge_scale(key.scale), "line": print_line(), **_drawn(drawings)}


def margin_words(paper: Paper) -> tuple[str, ...]:
    """The words that the margins of a paper's pages draw."""
    pictures = (gauge_scale(paper.scale), print_line())
    return tuple(mark.text for picture in pictures for mark in picture.marks if isinstance(mark, Label))


def _drawn(drawings: Mapping[int, DrawingCall | None]) -> dict[str, Picture]:
    return {f"drawing-{number}": draw(call) for number, call in drawings.items() if call}


@lru_cache(maxsize=1)
def _templates() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"), autoescape=True, undefined=StrictUndefined
    )
