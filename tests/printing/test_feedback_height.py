"""How high the pieces of a feedback sheet are thought to be, against what laying out finds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.feedback.compose import feedback_sheet
from courseware.marking.marks import Mark, MarkedPaper
from courseware.printing.feedback_choices import choices
from courseware.printing.feedback_height import PAGE, likely_sides
from courseware.printing.render import feedback_pictures, lay_out_feedback
from courseware.settings.settings import Signed

TOPICS = ("opening_sizes", "sequence_of_work", "squaring_and_datums")


@pytest.fixture(scope="module")
def sheets(composed, space_of):
    """A sheet of each topic with nothing, a third and all of its parts wrong."""
    found = []
    for topic in TOPICS:
        sitting, sources = composed(topic)
        spaces = {name: space_of(*pair) for name, pair in sources.exercises.items()}
        for every in (0, 3, 1):
            marks = tuple(
                Mark(
                    label=part.label,
                    marks=0,
                    of=part.marks,
                    how="blank" if place % 2 else "decided",
                    why="",
                    written="7",
                )
                if every and place % every == 0
                else Mark(label=part.label, marks=part.marks, of=part.marks, how="right", why="")
                for place, part in enumerate(sitting.papers[1].parts)
            )
            marked = MarkedPaper(code=sitting.papers[1].code, status="", marks=marks)
            found.append(feedback_sheet(sitting, 1, marked, sources, spaces))
    return found


def test_it_is_right_more_often_than_not_and_never_far_off(sheets) -> None:
    """So that hardly a layout is made in vain, and nothing is left out that would have fitted by much."""
    pairs = [
        (likely_sides(sheet, shown, pictures), lay_out_feedback(sheet, shown, pictures).pages)
        for sheet in sheets
        for shown in list(choices(sheet))[::5]
        for pictures in [feedback_pictures(sheet, shown)]
    ]
    assert all(abs(likely - found) <= 1 for likely, found in pairs)
    assert sum(likely == found for likely, found in pairs) >= 0.8 * len(pairs)


def test_signatures_and_longer_words_take_more_room(sheets) -> None:
    sheet = sheets[1]
    shown = next(iter(choices(sheet)))
    pictures = feedback_pictures(sheet, shown)
    before = likely_sides(sheet, shown, pictures)
    signed = replace(sheet, signed=Signed(says="x" * 300, signed=("Learner",) * 6), notes=("word " * 1000,))
    assert likely_sides(signed, shown, pictures) > before


@pytest.mark.parametrize(("letters", "more"), [(100, 0), (20_000, 1)])
def test_what_is_higher_than_a_side_goes_on_overleaf(sheets, letters: int, more: int) -> None:
    sheet = replace(sheets[0], fresh=None, lost=(), wrong=(), comments=(), notes=("x" * letters,))
    shown = next(iter(choices(sheet)))
    assert PAGE < 297
    assert (likely_sides(sheet, shown, feedback_pictures(sheet, shown)) > 1) is bool(more)
