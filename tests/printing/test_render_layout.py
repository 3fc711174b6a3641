"""How the pages are filled, read back from the PDFs: no great white, nothing orphaned, figures of a mark side by side."""

from __future__ import annotations

import re
from collections.abc import Iterator

import numpy as np
import pypdfium2
import pytest

from courseware.papers.sheets import AskedPart
from courseware.printing.page_elements import steps_in, working_room
from courseware.printing.render import first_line, key_rows, side_by_side

TOPICS = ("opening_sizes", "course_gauge", "resource_lists")
_TOP, _FOOT = 12.0, 297.0 - 18.0  # mm: between these stands what a page is for


def pages(pdf: bytes) -> Iterator[tuple[pypdfium2.PdfPage, float]]:
    """Each page, and how far down in mm it is filled."""
    for page in pypdfium2.PdfDocument(pdf):
        dark = np.asarray(page.render(scale=2).to_pil().convert("L")) < 128
        rows = np.flatnonzero(dark[int(_TOP * 2 * 72 / 25.4) : int(_FOOT * 2 * 72 / 25.4), 27 * 6 :].any(axis=1))
        yield page, _TOP + (rows.max() if rows.size else 0) / (2 * 72 / 25.4)


@pytest.mark.parametrize("topic", TOPICS)
@pytest.mark.parametrize("kind", ["paper_pdf", "key_pdf"])
def test_pages_are_filled_and_the_last_has_more_than_a_line(printed, topic: str, kind: str) -> None:
    filled = [down for _, down in pages(getattr(printed(topic), kind))]
    white = [(_FOOT - down) / (_FOOT - _TOP) for down in filled[:-1]]
    assert sum(white) / len(white) < 0.25
    assert filled[-1] > _TOP + 20


@pytest.mark.parametrize("topic", TOPICS)
@pytest.mark.parametrize("kind", ["paper_pdf", "key_pdf"])
def test_no_heading_of_an_exercise_stands_at_a_pages_foot(printed, topic: str, kind: str) -> None:
    for page, down in pages(getattr(printed(topic), kind)):
        foot = page.get_height() - down * 72 / 25.4
        last = page.get_textpage().get_text_bounded(bottom=foot - 3, top=foot + 40)  # the last lines that are filled
        assert re.search(r"level \d · ", last) is None


def number(label: str, marks: int = 1, ask: str = "How wide?") -> AskedPart:
    return AskedPart(label=label, kind="number", ask=ask, marks=marks, unit="mm")


def test_two_figures_of_a_mark_each_stand_side_by_side_and_no_third_with_them() -> None:
    one, two, three = number("1a"), number("1b"), number("1c")
    assert side_by_side([one, two, three]) == [(one, two), (three,)]


@pytest.mark.parametrize(
    "other",
    [number("1b", marks=2), number("1b", ask="How " * 30), AskedPart(label="1b", kind="choice", ask="?", marks=1)],
)
def test_what_is_longer_or_of_another_kind_has_the_page_to_itself(other: AskedPart) -> None:
    assert side_by_side([number("1a"), other]) == [(number("1a"),), (other,)]


@pytest.mark.parametrize(("length", "beside"), [(89, True), (90, True), (91, False)])
def test_a_question_stands_beside_another_up_to_ninety_characters(length: int, beside: bool) -> None:
    rows = side_by_side([number("1a"), number("1b", ask="x" * length)])
    assert (len(rows) == 1) is beside


def test_room_to_work_in_grows_with_the_marks() -> None:
    heights = [working_room("mm", marks).height for marks in (1, 2, 3, 4)]
    assert heights == sorted(set(heights))
    assert [steps_in(marks) for marks in (1, 2, 3)] == [False, True, True]
    assert working_room("mm", 1, half=True).width * 2 < working_room("mm", 1).width


def test_a_long_question_is_cut_between_words_on_its_key() -> None:
    assert first_line("short and whole") == "short and whole"
    assert first_line("seven words that go on and on", 20) == "seven words that …"


def test_slips_stand_beside_the_working_and_none_is_lost(printed) -> None:
    for exercise in printed("opening_sizes").key.exercises:
        for _, answers in exercise.by_part:
            for answer in answers:
                left, right = zip(*key_rows(answer), strict=True) if key_rows(answer) else ((), ())
                assert [row.figure for row in left if row] == [one.figure for one in (*answer.working, *answer.accepts)]
                told = [row.says for row in right if row]
                assert told == [*(slip.says for slip in answer.slips), *answer.notes]
