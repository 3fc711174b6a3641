"""Feedback sheets printed, as many at once as pay."""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from courseware.banks import Space
from courseware.feedback.compose import feedback_sheet
from courseware.feedback.feedback_text import VariantKey
from courseware.marking.marks import MarkedPaper, NamedSlip
from courseware.printing.workers import each, sitting_in

Indices = Mapping[tuple[str, str], "array[int]"]  # of the variants to draw from, by topic and exercise


@dataclass(frozen=True, slots=True, kw_only=True)
class Handback:
    """One learner's marked paper: its place in the sitting, what they have had, the slips of earlier sittings."""

    place: int
    marked: MarkedPaper
    had: frozenset[VariantKey]
    earlier: tuple[NamedSlip, ...]

    def __str__(self) -> str:
        return f"feedback {self.place + 1}"


def print_feedback(
    text: str, indices: Indices, hand_back: Sequence[Handback], processes: int
) -> Iterator[tuple[Handback, bytes]]:
    """Each with its feedback sheet, as it is done. A space travels as its indices: formulas cannot."""
    return each(_print, (text, indices), hand_back, processes)


def _print(shared: tuple[str, Indices], one: Handback) -> bytes:
    from courseware.printing.render import feedback_pdf

    text, indices = shared
    sitting, sources = sitting_in(text)
    spaces = {name: Space(exercise=sources.exercises[name][1], indices=own) for name, own in indices.items()}
    return feedback_pdf(feedback_sheet(sitting, one.place, one.marked, sources, spaces, one.had, one.earlier))
