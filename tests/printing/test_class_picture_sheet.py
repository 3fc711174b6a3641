"""The class picture as a PDF: two sides whatever the class and the paper, legible, and without a name."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO

import page
import pytest
from pikepdf import Pdf
from pypdf import PdfReader

from courseware.banks import prove, read_bank
from courseware.class_report.figures import class_figures
from courseware.class_report.misconceptions import slip_words
from courseware.class_report.question_words import question_words
from courseware.class_report.report import class_picture
from courseware.class_report.starters import Starter
from courseware.marking.marks import Mark, MarkedPaper, NamedSlip
from courseware.papers.compose import read_sources
from courseware.papers.deal import Heads, deal_sitting
from courseware.papers.group import numbered
from courseware.printing.class_picture_sheet import class_picture_pdf
from tests.class_report.conftest import WALL

TOPICS = ("opening_sizes", "course_gauge")
ALL = (*TOPICS, "resource_lists", "projection_levelling")
LONG = Starter(
    "A wall is to be built. " * 40, "How long is it, how high, and how many bricks does it take? " * 6, "7", WALL
)

# A stranger's: long words, no misconceptions, one slip to each part.
STRANGERS = """\
topic: Kerbs, copings and other things that stand at the edge of what is built by others
aim: Work out lengths
exercises:
""" + "".join(f"""\
  - name: kerb-{n}
    level: 1
    given: {{kerbs: 2 to 60}}
    pose: A row has {{{{ kerbs }}}} kerbs of {910 + n} mm and ends in a kerb at both ends, as the drawing of the site has it.
    parts:
      - name: length
        ask: How long is the row, from the outer edge of the first kerb to the outer edge of the last one of all of them?
        answer: kerbs * {910 + n}
        marks: 1
        working: [{{say: Multiply out, value: kerbs * {910 + n}}}]
        slips:
          - {{value: kerbs * {910 + n} + 10, says: "A joint was added at the end {n} of the row, where the kerb meets nothing, neither a kerb nor a wall, nor anything else that would take one"}}
""" for n in range(30))  # fmt: skip


def printed(sitting, marked, starter: Starter | None = LONG) -> bytes:
    sources = read_sources(sitting)
    starters = {part.label: starter for part in sitting.papers[0].parts} if starter else {}
    figures = class_figures(sitting, marked, slip_words(sitting, sources))
    return class_picture_pdf(class_picture(sitting, figures, question_words(sitting, sources), starters))


def pages(pdf: bytes) -> list[str]:
    return [found.extract_text() for found in PdfReader(BytesIO(pdf)).pages]


@pytest.mark.parametrize(("learners", "topics", "exercises"), [
    (1, TOPICS, 6), (7, TOPICS, 2), (30, TOPICS, 6), (30, TOPICS, 16), (31, TOPICS, 6), (200, ALL, 16),
])  # fmt: skip
def test_it_is_two_sides_and_conforms(class_of, learners: int, topics, exercises: int) -> None:
    """ISO 14289-1 (PDF/UA-1), as the checker `page` of the package page-validation reads it."""
    pdf = printed(*class_of(learners, topics, exercises))
    assert len(pages(pdf)) == 2
    report = page.validate_pdf_bytes(pdf, profile="ua1")
    assert report.is_compliant, [failure.message for failure in report.failures]


def test_a_strangers_bank_keeps_to_two_sides(class_of) -> None:
    bank = read_bank(STRANGERS.encode(), "kerbs.yaml")
    heads = Heads(
        title="Kerbs " * 16, date="2026-01-05", group=replace(numbered(40), name="Group " * 8), seed="s", version="0"
    )
    spaces = [prove(exercise).space for exercise in bank.exercises]
    sitting = deal_sitting(heads, (bank,), None, tuple((bank, exercise) for exercise in bank.exercises), spaces)
    marked = [
        MarkedPaper(
            code=paper.code,
            status="",
            marks=tuple(
                Mark(
                    label=part.label,
                    marks=0,
                    of=1,
                    how="slip",
                    why="",
                    slips=(NamedSlip(key=f"{e.exercise}/{part.name}/1", says=part.slips[0][1]),),
                )
                for e in paper.exercises
                for part in e.parts
            ),
        )
        for paper in sitting.papers
    ]
    assert len(pages(printed(sitting, marked))) == 2


def test_the_centres_name_stands_over_the_title(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    first, second = pages(
        printed(replace(sitting, settings=replace(sitting.settings, name="Tyneholm College")), marked)
    )
    assert first.index("Tyneholm College") < first.index("Class picture: ")
    assert "Tyneholm College" not in second


def test_what_to_teach_first_is_on_the_first_side_and_the_bars_on_the_second(class_of) -> None:
    first, second = pages(printed(*class_of(12, TOPICS)))
    assert "Teach first: " in first
    assert "Who got what" in first
    for heading in ("What went wrong", "Spread of marks", "How much of each exercise the class got"):
        assert heading in second


@pytest.mark.parametrize("learners", [1, 30, 200])
def test_no_type_is_smaller_than_eight_points(class_of, learners: int) -> None:
    """Read back from the PDF: the size set by each Tf or Tm, times the scale of what it stands in."""
    smallest = min(sizes(printed(*class_of(learners, ALL, 16), starter=None)))
    assert smallest >= 7.95


_OPERATORS = re.compile(
    rb"(?P<q>\bq\b)|(?P<Q>\bQ\b)|(?P<cm>(?:[-\d.]+\s+){6})cm|/\S+\s+(?P<size>[-\d.]+)\s+Tf|(?P<tm>(?:[-\d.]+\s+){6})Tm"
)


def sizes(pdf: bytes) -> list[float]:
    """Points of type in a PDF, by the determinant of the matrices that stand over it."""
    found: list[float] = []
    with Pdf.open(BytesIO(pdf)) as opened:
        for sheet in opened.pages:
            scales, text = [1.0], 1.0
            for operator in _OPERATORS.finditer(sheet.Contents.read_bytes()):
                if operator["q"]:
                    scales.append(scales[-1])
                elif operator["Q"]:
                    scales.pop()
                elif operator["cm"]:
                    scales[-1] *= _scale(operator["cm"])
                elif operator["tm"]:
                    text = _scale(operator["tm"])
                else:
                    found.append(float(operator["size"]) * text * scales[-1])
    return found


def _scale(six: bytes) -> float:
    a, b, c, d, _, _ = map(float, six.split())
    return abs(a * d - b * c) ** 0.5


def test_the_same_marks_give_the_same_bytes(class_of) -> None:
    sitting, marked = class_of(7, TOPICS)
    assert printed(sitting, marked) == printed(sitting, marked[::-1])


def test_nothing_marked_takes_one_side(class_of) -> None:
    sitting, _ = class_of(3, TOPICS)
    (only,) = pages(printed(sitting, ()))
    assert "Nothing is marked yet" in only
