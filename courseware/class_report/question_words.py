"""What a question is called where its figures differ from paper to paper: its words, with the figures left open."""

from __future__ import annotations

from collections.abc import Mapping

from courseware.banks.part import Part
from courseware.banks.wording import Wording
from courseware.papers.compose import Sources, entries_of, issued_from
from courseware.papers.sitting import Sitting
from courseware.reports.in_short import in_short

_OPEN = "…"  # in place of a figure


def question_words(sitting: Sitting, sources: Sources) -> Mapping[str, str]:
    """What each part asks, by its label: `How wide must an opening of … bricks be?`."""
    found: dict[str, str] = {}
    for number, issued in enumerate(sitting.papers[0].exercises, 1):
        _, exercise = issued_from(issued, sources)
        for part, entries in zip(exercise.parts, entries_of(exercise, issued, number), strict=True):
            for row, entry in zip(part.entries, entries, strict=True):
                found[entry.label] = _asked(part, row)
    return found


def _asked(part: Part, row: Part) -> str:
    ask = in_short(without_figures(part.ask))
    return ask if row is part else f"{ask} {without_figures(row.ask)}"


def without_figures(wording: Wording) -> str:
    """The words of a wording, with an ellipsis for each place that a figure, a name or a label fills."""
    said = "".join(piece if isinstance(piece, str) else _OPEN for piece in wording.pieces)
    return " ".join(said.split())
