"""The class picture as a tutor reads it, and its PDF."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import page
import pytest
from pypdf import PdfReader
from statsmodels.stats.proportion import proportion_confint

from courseware.class_report.report import class_picture
from courseware.class_report.teach_again import Starter
from courseware.marking.marks import Mark
from courseware.printing.render import job_pdf
from courseware.reports.report import Block, Report

TOPICS = ("opening_sizes", "course_gauge")
STARTERS = {
    "what-fits-the-gap": Starter(
        "The gap is 1585 mm wide, brick to brick.",
        "How many bricks long is each course?",
        "7 bricks",
    ),
}
HEADINGS = [
    "Teach again first",
    "How much of each part the class got",
    "How much of each outcome the class got",
    "Spread of marks",
    "How the questions worked",
    "How steady the totals are",
    "Were all papers equally hard?",
    "Each paper",
    "What the words mean",
]


def block(sheet: Report, heading: str) -> Block:
    (found,) = (one for one in sheet.blocks if one.heading == heading)
    return found


def everything(sheet: Report) -> str:
    tables = [line for one in sheet.blocks if one.table for line in (one.table.headings, *one.table.rows)]
    return "\n".join(
        ["\n".join((one.heading, *one.text)) for one in sheet.blocks] + ["\n".join(line) for line in tables]
    )


def test_what_to_teach_again_stands_first_and_the_rest_in_order(class_of) -> None:
    sheet = class_picture(*class_of(12, TOPICS), STARTERS)
    headings = [one.heading for one in sheet.blocks if one.heading in HEADINGS]
    assert headings == HEADINGS
    assert sheet.blocks[1].heading == HEADINGS[0]
    assert (sheet.file, sheet.title) == ("class-picture", "Class picture: Setting out")


def test_absent_learners_are_left_out_and_counted(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    sheet = class_picture(sitting, (replace(marked[0], status="absent", marks=()), *marked[2:]), {})
    (who,) = sheet.blocks[0].text
    assert "10 papers marked; 1 absent; 1 not handed in." in who
    assert who.startswith("For the tutor, not for learners. Group T, 5 January 2026, sitting ")
    assert marked[0].code not in everything(sheet)


def test_papers_go_by_code_and_in_order_of_code_never_by_total(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    table = block(class_picture(sitting, marked, {}), "Each paper").table
    assert [row[0] for row in table.rows] == sorted(paper.code for paper in marked)
    assert table.headings == ("Paper", "Marks", "Slips by number")
    assert {row[0]: row[1] for row in table.rows} == {paper.code: f"{paper.total} of {paper.of}" for paper in marked}


def test_names_stand_beside_codes_where_they_are_given_and_nowhere_else(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    with_names = replace(
        sitting, papers=tuple(replace(p, learner=replace(p.learner, name="Zoë <b>")) for p in sitting.papers)
    )
    assert "Zoë" not in everything(class_picture(with_names, marked, {}))
    table = block(class_picture(sitting, marked, {}, {marked[0].code: "Zoë <b>"}), "Each paper").table
    assert {row[0]: row[1] for row in table.rows} == {p.code: "Zoë <b>" if p is marked[0] else "" for p in marked}


def test_a_tutor_reads_how_many_got_it_and_the_likely_share(class_of) -> None:
    """Seven and a half of twelve. Interval by statsmodels."""
    sitting, marked = class_of(12, TOPICS)
    first = [2, 2, 2, 2, 2, 2, 2, 1, 0, 0, 0, 0]
    papers = [
        replace(p, marks=(Mark(label="1a", marks=n, of=2, how="right" if n else "blank", why=""), *p.marks[1:]))
        for p, n in zip(marked, first, strict=True)
    ]
    row = block(class_picture(sitting, papers, {}), "How much of each part the class got").table.rows[0]
    low, high = (round(end * 100) for end in proportion_confint(7.5, 12, method="wilson"))
    likely = f"63\u00a0% ({low} to {high})"
    assert row == ("1a", "what fits the gap: bricks wide", "2", "about 8 of 12", likely, "4", "0", "0")


def test_a_small_class_is_cautioned_and_a_large_one_is_not(class_of) -> None:
    small, large = (block(class_picture(*class_of(n, TOPICS), {}), "How the questions worked").text for n in (12, 60))
    assert "A small class says little: n = 12." in small[1]
    assert "standard deviation of 0.33" in small[1]
    assert len(large) == 1


def test_what_is_undefined_is_a_dash(class_of) -> None:
    sheet = class_picture(*class_of(1, TOPICS), {})
    assert {row[1:5] for row in block(sheet, "How the questions worked").table.rows} == {("–", "–", "–", "–")}
    rows = {row[0]: row[1:] for row in block(sheet, "How steady the totals are").table.rows}
    assert rows["Alpha"] == rows["KR-20"] == rows["SEM, in marks"] == rows["SD"] == ("–", "–", "1")


def test_no_question_is_ever_called_bad(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    nothing = [replace(p, marks=tuple(replace(m, marks=0, how="blank", slips=()) for m in p.marks)) for p in marked]
    words = everything(class_picture(sitting, nothing, {}))
    assert "few got it; many left it out" in words
    assert "Look at this question" in words
    assert "bad" not in words.lower().replace("bad course", ""), "but for a part that is about one"


def test_answers_still_open_are_told(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    opened = replace(marked[0], marks=(replace(marked[0].marks[0], how="asked", marks=0), *marked[0].marks[1:]))
    (who,) = class_picture(sitting, (opened, *marked[1:]), {}).blocks[0].text
    assert "1 answer could not be read and earns nothing until settled" in who


@pytest.mark.parametrize("waiting", [0, 1, 2])
def test_answers_that_wait_for_a_look_at_the_working_make_the_figures_provisional(class_of, waiting: int) -> None:
    sitting, marked = class_of(3, TOPICS)
    right = [replace(p, marks=tuple(replace(m, marks=m.of, how="right", slips=()) for m in p.marks)) for p in marked]
    first = [replace(m, how="unknown", marks=0) if n < waiting else m for n, m in enumerate(right[0].marks)]
    (who,) = class_picture(sitting, (replace(right[0], marks=tuple(first)), *right[1:]), {}).blocks[0].text
    assert ("provisional" in who) is (waiting > 0)
    if waiting:
        assert f"{waiting} answer{'' if waiting == 1 else 's'} wait{'s' if waiting == 1 else ''} for a look" in who


def test_variants_are_compared_across_sittings(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    others = [class_of(14, TOPICS, seed="another"), class_of(18, ("course_gauge",), seed="a third")]
    alone = block(class_picture(sitting, marked, {}), HEADINGS[6]).table.rows
    together = block(class_picture(sitting, marked, {}, {}, others), HEADINGS[6]).table.rows
    assert {row[5] for row in alone} == {"12"}
    assert {row[0] for row in alone} == {row[0] for row in together}, "only this sitting's own parts"
    assert {row[5] for row in together} <= {"26", "44"}
    assert together[0][5] == "26"


def test_nothing_marked_is_said_and_nothing_shown(class_of) -> None:
    sitting, _ = class_of(3, TOPICS)
    sheet = class_picture(sitting, (), {})
    assert sheet.blocks[1].text == ("Nothing is marked yet, so there is nothing to show.",)
    assert "0 papers marked; 3 not handed in." in sheet.blocks[0].text[0]


@pytest.mark.parametrize("learners", [1, 60])
def test_its_pdf_conforms_leaves_no_page_nearly_empty_and_is_the_same_again(class_of, learners) -> None:
    sheet = class_picture(*class_of(learners, TOPICS), STARTERS)
    pdf = job_pdf(sheet)
    report = page.validate_pdf_bytes(pdf, profile="ua1")
    assert report.is_compliant, [failure.message for failure in report.failures]
    assert job_pdf(sheet) == pdf
    pages = [found.extract_text() for found in PdfReader(BytesIO(pdf)).pages]
    assert len(pages) <= 10
    assert all(len(text) > 500 for text in pages[:-1])
    assert "Teach again first" in pages[0]


def test_its_pdf_prints_names_as_they_are(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    pdf = job_pdf(class_picture(sitting, marked, {}, {marked[0].code: "=1+1 & <Zoë>"}))
    assert any("=1+1 & <Zoë>" in found.extract_text() for found in PdfReader(BytesIO(pdf)).pages)
