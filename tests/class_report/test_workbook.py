"""The class picture's workbook, opened again."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.class_report.teach_again import Starter
from courseware.class_report.workbook import class_workbook

STARTERS = {"what-fits-the-gap": Starter("The gap is 1585 mm wide.", "=How many bricks?", "7 bricks")}
TOPICS = ("opening_sizes", "course_gauge")


def opened(*asked, **more) -> openpyxl.Workbook:
    return openpyxl.load_workbook(BytesIO(class_workbook(*asked, **more)))


def test_it_has_a_sheet_for_everything(class_of) -> None:
    book = opened(*class_of(12, TOPICS), STARTERS)
    assert book.sheetnames == ["Teach again", "Parts", "Outcomes", "Whole paper", "Marks", "Variants", "What is what"]


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
    book = opened(sitting, marked, {}, {paper.code: name for paper in marked})
    for cell in book["Marks"]["B"][1:]:
        assert (cell.value, cell.data_type) == (name, "s")
        assert cell.quotePrefix == (name[0] in "=+-@＝")
    assert not [c for sheet in book for row in sheet.iter_rows() for c in row if c.data_type == "f"]


def test_slips_have_their_papers_and_their_starter(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    names = {paper.code: f"Learner {place}" for place, paper in enumerate(marked)}
    head, *rows = opened(sitting, marked, STARTERS, names)["Teach again"].iter_rows(values_only=True)
    assert head[:8] == ("no.", "what went wrong", "part", "exercise", "papers", "perhaps", "of", "teach again")
    again = [row for row in rows if row[7] == "yes"]
    assert rows[: len(again)] == again
    assert [row[4] for row in again] == sorted((row[4] for row in again), reverse=True)
    for row in rows:
        shown = [
            slip
            for paper in marked
            for mark in paper.marks
            for slip in mark.slips
            if slip.says == row[1] and mark.label == row[2]
        ]
        assert row[4] == len(shown) == len(row[8].split(", "))
        assert row[6] == 12
        assert "Learner" in row[8]
    gap = [row[10:] for row in again if row[3] == "what fits the gap"]
    assert gap
    assert set(gap) == {STARTERS["what-fits-the-gap"][:3]}


def test_figures_are_numbers_and_dashes_where_they_do_not_exist(class_of) -> None:
    many = list(opened(*class_of(12, TOPICS), {})["Parts"].iter_rows(min_row=2, values_only=True))
    assert all(isinstance(row[6], int | float) and 0 <= row[7] <= row[6] <= row[8] <= 1 for row in many)
    assert all(-1 <= row[9] <= 1 and row[10] == 3 for row in many)
    one = list(opened(*class_of(1, TOPICS), {})["Parts"].iter_rows(min_row=2, values_only=True))
    assert {row[9:17] for row in one} == {("–",) * 8}


def test_the_whole_paper_and_the_variants_have_their_figures(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    book = opened(sitting, marked, {}, {}, [class_of(14, TOPICS, seed="another")])
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
    assert {row[6] for row in book["Parts"].iter_rows(min_row=2, values_only=True)} == {"–"}


def test_the_same_marks_give_the_same_bytes(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    assert class_workbook(sitting, marked, STARTERS) == class_workbook(sitting, marked[::-1], STARTERS)
