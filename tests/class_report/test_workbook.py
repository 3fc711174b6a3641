"""The class picture's workbook, opened again."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.class_report.figures import class_figures
from courseware.class_report.misconceptions import slip_words
from courseware.class_report.question_words import question_words
from courseware.class_report.starters import Starter
from courseware.class_report.variant_bands import bands_of
from courseware.class_report.workbook import class_workbook
from courseware.papers.compose import read_sources

STARTER = Starter("The gap is 1585 mm wide.", "=How many bricks?", "7 bricks")
TOPICS = ("opening_sizes", "course_gauge")


def made(sitting, marked, starters=None, names=None, others=()) -> bytes:
    sources = read_sources(sitting)
    figures = class_figures(sitting, marked, slip_words(sitting, sources))
    bands = bands_of(sitting, marked, others)
    return class_workbook(sitting, figures, question_words(sitting, sources), starters or {}, bands, names or {})


def opened(*asked, **more) -> openpyxl.Workbook:
    return openpyxl.load_workbook(BytesIO(made(*asked, **more)))


def test_it_has_a_sheet_for_everything_its_heading_and_its_first_columns_staying_in_sight(class_of) -> None:
    book = opened(*class_of(12, TOPICS), {"1a": STARTER})
    assert {sheet.title: sheet.freeze_panes for sheet in book} == {
        "Teach again": "B2",
        "Slips": "B2",
        "Starters": "B2",
        "Parts": "B2",
        "Outcomes": "B2",
        "Whole paper": "A2",
        "Marks": "C2",
        "Variants": "B2",
        "What is what": "A2",
    }


def test_every_starter_has_a_row_with_its_answer(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    head, row = opened(sitting, marked, {"1a": STARTER})["Starters"].iter_rows(values_only=True)
    assert head == ("part", "of the kind of", "starter", "it asks", "its answer", "has a drawing")
    question = question_words(sitting, read_sources(sitting))["1a"]
    assert row == ("1a", question, *STARTER[:3], None)


def test_marks_are_numbers_in_order_of_code(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    head, *rows = opened(sitting, marked, {})["Marks"].iter_rows(values_only=True)
    assert head == ("paper", "name", *(mark.label for mark in marked[0].marks), "total", "of")
    by_code = sorted(marked, key=lambda paper: paper.code)
    assert [row[0] for row in rows] == [paper.code for paper in by_code]
    assert [list(row[2:]) for row in rows] == [[*(m.marks for m in p.marks), p.total, p.of] for p in by_code]
    assert all(row[1] is None for row in rows), "codes alone unless names are given"


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)", "＝1+1", "Zoë O'Brien"])
def test_a_name_that_looks_like_a_formula_stays_text(class_of, name: str) -> None:
    sitting, marked = class_of(3, TOPICS)
    book = opened(sitting, marked, None, {paper.code: name for paper in marked})
    for cell in book["Marks"]["B"][1:]:
        assert (cell.value, cell.data_type) == (name, "s")
        assert cell.quotePrefix == (name[0] in "=+-@＝")
    assert not [c for sheet in book for row in sheet.iter_rows() for c in row if c.data_type == "f"]


def test_each_slip_of_each_part_has_its_papers_and_what_it_is_counted_as(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    names = {paper.code: f"Learner {place}" for place, paper in enumerate(marked)}
    head, *rows = opened(sitting, marked, {"1a": STARTER}, names)["Slips"].iter_rows(values_only=True)
    assert head[:6] == ("part", "what the slip says", "counted as", "papers", "perhaps", "of")
    assert [row[3] for row in rows] == sorted((row[3] for row in rows), reverse=True)
    for row in rows:
        shown = [
            slip
            for paper in marked
            for mark in paper.marks
            for slip in mark.slips
            if slip.says == row[1] and mark.label == row[0]
        ]
        assert row[3] == len(shown) == len(row[7].split(", "))
        assert row[5] == 12
        assert row[2]
        assert "Learner" in row[7]


def test_what_to_teach_again_adds_up_what_the_slips_say(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    book = opened(sitting, marked, {part.label: STARTER for part in sitting.papers[0].parts})
    slips = list(book["Slips"].iter_rows(min_row=2, values_only=True))
    again = list(book["Teach again"].iter_rows(min_row=2, values_only=True))
    assert [row[1] for row in again] == sorted((row[1] for row in again), reverse=True)
    for words, learners, of, times, questions, _, teach, where, *_ in again:
        own = [row for row in slips if row[2] == words]
        assert times == sum(row[3] for row in own)
        assert (learners, of) == (len({code for row in own for code in row[7].split(", ")}), 12)
        assert questions == len({row[0] for row in own}) == len(where.split(", "))
        assert teach == ("yes" if learners > 1 else "a slip")
    assert any(row[11:] == STARTER[:3] for row in again)


def test_figures_are_numbers_and_dashes_where_they_do_not_exist(class_of) -> None:
    many = list(opened(*class_of(12, TOPICS), {})["Parts"].iter_rows(min_row=2, values_only=True))
    assert all(isinstance(row[5], int | float) and 0 <= row[6] <= row[5] <= row[7] <= 1 for row in many)
    assert all(-1 <= row[8] <= 1 and row[9] == 3 for row in many)
    one = list(opened(*class_of(1, TOPICS), {})["Parts"].iter_rows(min_row=2, values_only=True))
    assert {row[8:16] for row in one} == {("–",) * 8}


def test_the_whole_paper_and_the_variants_have_their_figures(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    book = opened(sitting, marked, others=[class_of(14, TOPICS, seed="another")])
    whole = {row[0]: row[1:] for row in book["Whole paper"].iter_rows(min_row=2, values_only=True)}
    assert whole["mean"][0] == pytest.approx(sum(paper.total for paper in marked) / 12, abs=1e-4)
    assert whole["alpha"][1] < whole["alpha"][0] < whole["alpha"][2]
    assert whole["KR-20"] == ("–", "–", "–", 12)
    head, *rows = book["Variants"].iter_rows(values_only=True)
    counts = [place for place, title in enumerate(head) if title.endswith(": n")]
    assert {sum(row[place] for place in counts) for row in rows} == {26}


def test_an_empty_class_still_makes_a_workbook(class_of) -> None:
    sitting, _ = class_of(3, TOPICS)
    book = opened(sitting, (), {})
    assert book["Marks"].max_row == 1
    assert {row[5] for row in book["Parts"].iter_rows(min_row=2, values_only=True)} == {"–"}


def test_the_same_marks_give_the_same_bytes(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    assert made(sitting, marked, {"1a": STARTER}) == made(sitting, marked[::-1], {"1a": STARTER})
