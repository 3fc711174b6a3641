"""Feedback sheets printed, as many at once as pay."""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from courseware.banks import Space
from courseware.feedback.compose import feedback_sheet
from courseware.feedback.feedback_text import FeedbackSheet, VariantKey
from courseware.marking.marks import MarkedPaper, NamedSlip
from courseware.printing.feedback_choices import SIDES, choices, re_flowed
from courseware.printing.feedback_height import likely_sides
from courseware.printing.page_format import page_for
from courseware.printing.workers import each, sitting_in

Indices = Mapping[tuple[str, str], "array[int]"]  # of the variants to draw from, by topic and exercise


@dataclass(frozen=True, slots=True, kw_only=True)
class Handback:
    """One learner's marked paper: its place in the sitting, what they have had, the slips of earlier sittings."""

    place: int
    marked: MarkedPaper
    had: frozenset[VariantKey]
    earlier: tuple[NamedSlip, ...]
    marked_by: str = ""  # who marked it and when, as a sentence
    changed: tuple[str, ...] = ()  # what is other than on a sheet handed back before, a sentence each
    asked_again: tuple[str, ...] = ()  # parts whose decision has lapsed

    def __str__(self) -> str:
        return f"feedback {self.place + 1}"


def print_feedback(
    text: str, indices: Indices, hand_back: Sequence[Handback], processes: int
) -> Iterator[tuple[Handback, bytes]]:
    """Each with its feedback sheet, as it is done. A space travels as its indices: formulas cannot."""
    return each(_print, (text, indices), hand_back, processes)


def _print(shared: tuple[str, Indices], one: Handback) -> bytes:
    text, indices = shared
    sitting, sources = sitting_in(text)
    spaces = {name: Space(exercise=sources.exercises[name][1], indices=own) for name, own in indices.items()}
    found = feedback_sheet(
        sitting, one.place, one.marked, sources, spaces, one.had, one.earlier, one.marked_by,
        changed=one.changed, asked_again=one.asked_again,
    )  # fmt: skip
    return feedback_pdf(found)


def feedback_pdf(sheet: FeedbackSheet) -> bytes:
    """A learner's feedback on one sheet of two sides: the first choice that fits, found by laying each out in turn.

    It is set as their paper was; in larger type, or with lines further apart, it takes as many sides as it needs.
    """
    from courseware.printing.render import feedback_pictures, lay_out_feedback

    page = page_for(sheet.set_as)
    if page.re_flowed:
        shown = re_flowed(sheet, page.wide)
        return lay_out_feedback(sheet, shown, feedback_pictures(sheet, shown)).pdf()
    *others, barest = choices(sheet)
    for shown in others:
        pictures = feedback_pictures(sheet, shown)
        if likely_sides(sheet, shown, pictures) <= SIDES:
            laid_out = lay_out_feedback(sheet, shown, pictures)
            if laid_out.pages == 1 and sheet.fresh:
                laid_out = lay_out_feedback(sheet, replace(shown, turned=True), pictures)
            if laid_out.pages <= SIDES:
                return laid_out.pdf()
    return lay_out_feedback(sheet, barest, feedback_pictures(sheet, barest)).pdf()
