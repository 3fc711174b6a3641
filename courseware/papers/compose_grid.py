"""The class grid: every learner's answers side by side, for marking a pile of scripts."""

from __future__ import annotations

from courseware.papers.compose import Sources, compose_key
from courseware.papers.sheets import Grid, GridBlock, GridColumn, KeyAnswer
from courseware.papers.sitting import Sitting

_ACROSS = 20  # parts side by side on a landscape sheet


def compose_grid(sitting: Sitting, sources: Sources, places: range | None = None) -> Grid:
    """The grid of a sitting, or of the learners at these places of it, cut into as many blocks as its parts need."""
    places = range(len(sitting.papers)) if places is None else places
    columns = tuple(
        GridColumn(label=part.label, unit=part.unit, marks=part.marks)
        for exercise in sitting.papers[0].exercises
        for part in exercise.parts
    )
    keys = [compose_key(sitting, place, sources) for place in places]
    rows = [
        (key.heading.code, key.heading.learner, [a for e in key.exercises for part in e.answers for a in part])
        for key in keys
    ]
    count = -(-len(columns) // _ACROSS)
    size = -(-len(columns) // count)
    blocks = tuple(
        GridBlock(
            columns=columns[start : start + size],
            rows=tuple(
                (code, name, tuple(map(_short, answers[start : start + size], columns[start : start + size])))
                for code, name, answers in rows
            ),
            last=start + size >= len(columns),
        )
        for start in range(0, len(columns), size)
    )
    head = keys[0].heading
    whole = len(places) == len(sitting.papers)
    span = "" if whole else f"learners {places[0] + 1} to {places[-1] + 1} of {len(sitting.papers)}"
    return Grid(
        title=head.title,
        group=head.group,
        date=head.date,
        marks=head.marks,
        span=span,
        centre=head.centre,
        blocks=blocks,
    )


def _short(answer: KeyAnswer, column: GridColumn) -> str:
    """An answer without the unit, which stands at the head of its column."""
    if answer.by_eye:
        return "by eye"
    if answer.open_order:
        return "see key"
    if answer.within:
        return f"{answer.answer} {answer.within}".replace(f" {column.unit}", "")
    return answer.answer.removesuffix(f" {column.unit}").replace(", ", "").replace(" and ", " ")
