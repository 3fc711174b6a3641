"""Papers set otherwise: larger type on the same sheet, other faces and grounds; the questions and true sizes stay.

Sizes: RNIB and UKAAF call 14 point large enough for many and 16 to 18 point and more large print, re-flowed and never
enlarged on a copier (`tests/authorities/large-print.txt`). Contrast: WCAG 2.2, success criterion 1.4.6 (7 to 1).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from io import BytesIO

import page as page_checker
import pytest
from pikepdf import Pdf
from pypdf import PdfReader

from courseware.drawings.picture import Label
from courseware.papers.sheet_format import SheetFormat, read_format
from courseware.papers.sheets import Paper
from courseware.printing.page_format import page_for
from courseware.printing.render import arrangements, paper_pdf

LARGE = ("large-14", "large-18", "large-24", "large-18 a3", "andika", "large-24 andika spaced")
OTHERS = ("cream", "blue spaced", "green part-a-page", "pink roomy", "yellow extra-25")
TOPIC = "opening_sizes"
POINT = 72 / 25.4  # in a mm
IN_MARGINS = re.compile(r"\d{1,2}|Course gauge at true size.*|This line is 100 mm long\..*")


@pytest.fixture(scope="module")
def set_as(printed):
    """The first exercise with each kind of part, set otherwise."""
    whole = printed(TOPIC).paper
    kinds: set[str] = set()
    first = []
    for exercise in whole.exercises:
        own = {part.kind for part in exercise.parts}
        if own - kinds:
            first.append(exercise)
            kinds |= own
    paper = replace(whole, exercises=tuple(first))
    assert any(exercise.drawing for exercise in first)

    @cache
    def made(words: str) -> tuple[Paper, bytes]:
        own = replace(paper, set_as=read_format(words))
        return own, paper_pdf(own)

    return made


def words_of(pdf: bytes) -> Iterator[tuple[str, float]]:
    """Every piece of text drawn, with its size in points, whatever it was scaled by."""
    for sheet in PdfReader(BytesIO(pdf)).pages:
        found: list[tuple[str, float]] = []

        def visit(text, outer, inner, _, size, found=found) -> None:
            scale = (
                abs(outer[0] * outer[3] - outer[1] * outer[2]) ** 0.5
                * abs(inner[0] * inner[3] - inner[1] * inner[2]) ** 0.5
            )
            if text.strip():
                found.append((text.strip(), size * scale))

        sheet.extract_text(visitor_text=visit)
        yield from found


@pytest.mark.parametrize("words", LARGE)
def test_no_word_is_smaller_than_was_asked_for_in_a_drawing_neither(set_as, words: str) -> None:
    """But the gauge scale and the 100 mm line in the margins, which are at true size on every page."""
    paper, pdf = set_as(words)
    least = page_for(paper.set_as).type_size
    small = {text for text, size in words_of(pdf) if size < least - 0.05 and not IN_MARGINS.fullmatch(text)}
    assert small == set()
    assert any(size >= least for _, size in words_of(pdf))


def test_the_words_of_every_drawing_are_read_back(set_as) -> None:
    """So that the test above has met them."""
    paper, pdf = set_as("large-24")
    said = re.sub(r"\s", "", "".join(text for text, _ in words_of(pdf)))
    set_out = arrangements(paper.exercises, page_for(paper.set_as)).values()
    drawn = {mark.text for one in set_out if one.drawing for mark in one.drawing.marks if isinstance(mark, Label)}
    assert len(drawn) > 3
    assert all(re.sub(r"\s", "", text) in said for text in drawn)


@pytest.mark.parametrize("words", [*LARGE, *OTHERS])
def test_every_question_is_there_and_the_file_conforms_to_pdf_ua(set_as, words: str) -> None:
    paper, pdf = set_as(words)
    said = re.sub(r"\s", "", "".join(sheet.extract_text() for sheet in PdfReader(BytesIO(pdf)).pages))
    for exercise in paper.exercises:
        for part in exercise.parts:
            assert re.sub(r"\s", "", part.ask) in said, part.label
            assert all(re.sub(r"\s", "", option) in said for _, option in part.options)
    report = page_checker.validate_pdf_bytes(pdf, profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


@pytest.mark.parametrize("words", ["large-18", "large-24"])
def test_a_caution_is_never_parted_and_its_box_names_the_exercise_it_is_for(set_as, words: str) -> None:
    """A box larger than a page goes on overleaf with whole cautions."""
    paper, pdf = set_as(words)
    first = next(exercise for exercise in paper.exercises if exercise.safety)
    sides = ["".join(side.extract_text().split()) for side in PdfReader(BytesIO(pdf)).pages]
    assert sum(f"Forexercise{first.number}andallafterit" in side for side in sides) == 1
    for note in first.safety:
        says = "".join(f"{note.title}. {' '.join(note.lines)}".split())
        assert sum(says in side for side in sides) == 1


def test_the_same_paper_set_otherwise_is_the_same_bytes(set_as) -> None:
    paper, pdf = set_as("large-18")
    assert pdf == paper_pdf(paper)


@pytest.mark.parametrize(("words", "size"), [("large-18", (210, 297)), ("large-24 a3", (297, 420))])
def test_sheets_have_iso_216_sizes_and_the_100_mm_line_its_length(set_as, words: str, size: tuple[int, int]) -> None:
    with Pdf.open(BytesIO(set_as(words)[1])) as opened:
        for sheet in opened.pages:
            assert [float(side) / POINT for side in sheet.MediaBox[2:]] == pytest.approx(size, abs=0.1)
    reached = [text for text, _ in words_of(set_as(words)[1]) if text.startswith("This line is 100 mm long")]
    assert len(reached) == len(PdfReader(BytesIO(set_as(words)[1])).pages)


@pytest.mark.parametrize(("words", "family"), [("", "Sheet"), ("large-18", "Sheet"), ("andika", "Andika")])
def test_no_other_face_is_used_than_the_one_asked_for_and_the_one_for_signs(set_as, words: str, family: str) -> None:
    with Pdf.open(BytesIO(set_as(words)[1])) as opened:
        names = {str(font.BaseFont) for sheet in opened.pages for font in sheet.Resources.get("/Font", {}).values()}
    assert names
    assert all(family in name or "Signs" in name for name in names), names


def luminance(colour: str) -> float:
    """Relative luminance, as WCAG 2.2 defines it."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("ground", ["cream", "blue", "green", "pink", "yellow"])
def test_black_on_a_tint_has_far_more_contrast_than_7_to_1(ground: str) -> None:
    colour = page_for(SheetFormat(ground=ground)).ground
    assert (luminance(colour) + 0.05) / 0.05 > 15


def test_a_part_a_page_and_extra_time_are_as_asked(set_as) -> None:
    paper, pdf = set_as("green part-a-page")
    parts = sum(len(exercise.parts) for exercise in paper.exercises)
    assert len(PdfReader(BytesIO(pdf)).pages) >= parts
    _, extra = set_as("yellow extra-25")
    assert "Extra time: 25 % more" in PdfReader(BytesIO(extra)).pages[0].extract_text()
    assert "Extra time" not in PdfReader(BytesIO(pdf)).pages[0].extract_text()


def test_roomy_gives_an_exercise_a_page(set_as) -> None:
    paper, pdf = set_as("pink roomy")
    begin = [len(re.findall(r"level \d · \d+ marks", page.extract_text())) for page in PdfReader(BytesIO(pdf)).pages]
    assert max(begin) == 1
    assert sum(begin) == len(paper.exercises)
