"""The sheet of answers that wait: what is on it, and what an assessor fills in, read back."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO

import pytest
from openpyxl import load_workbook

from courseware.feedback.settle_sheet import TITLE, read_settled, settle_page
from courseware.marking.mark import mark_scripts
from courseware.marking.script_sheet import SheetFaulty
from courseware.papers.compose import read_sources
from courseware.spreadsheets.xlsx_out import safe_workbook
from tests.marked_sitting import figure, script


@pytest.fixture(scope="module")
def sitting(composed):
    return composed("opening_sizes")[0]


@pytest.fixture(scope="module")
def page(sitting):
    """Of a sitting whose first learner wrote a figure that no rule fits."""
    paper = sitting.papers[0]
    sources = read_sources(sitting)
    marked = mark_scripts(sitting, [script(paper, 2, **{f"_{figure(paper)}": "7"})], (), sources)
    return settle_page(sitting, sources, marked)


@pytest.fixture
def filled(page):
    """The sheet with cells filled in, by heading."""

    def fill(**cells: str) -> bytes:
        book = load_workbook(BytesIO(safe_workbook((page,), "2026-01-05")))
        sheet = book[TITLE]
        columns = {str(cell.value).replace(" ", "_"): cell.column for cell in sheet[1]}
        for heading, text in cells.items():
            sheet.cell(2, columns[heading], text)
        written = BytesIO()
        book.save(written)
        return written.getvalue()

    return fill


def first_row(page) -> Mapping[str, object]:
    return dict(zip(page.columns, page.rows[0], strict=True))


def test_an_answer_that_waits_stands_with_the_question_the_key_and_the_lines_that_earn(page, sitting) -> None:
    row = first_row(page)
    label = figure(sitting.papers[0])
    assert (row["code"], row["part"], row["written"]) == (sitting.papers[0].code, label, "7")
    part = next(part for part in sitting.papers[0].parts if part.label == label)
    assert row["of"] == part.marks
    assert str(row["line 1"]).endswith(("(M1)", "(A1)", "(M2)"))
    assert row["seen 1"] == row["marks"] == row["reason"] == ""
    assert len({len(one) for one in page.rows}) == 1


def read(data: bytes, sitting, written: str = "7"):
    paper = sitting.papers[0]
    return read_settled(data, "to-settle.xlsx", sitting, {(paper.code, figure(paper)): written})


def test_nothing_filled_in_decides_nothing(filled, sitting) -> None:
    assert read(filled(), sitting).decisions == ()


@pytest.mark.parametrize("tick", ["x", "X", "✓", "1", "yes"])
def test_a_line_that_was_seen_earns_its_marks_and_is_the_reason(filled, page, sitting, tick: str) -> None:
    [decided] = read(filled(seen_1=tick), sitting).decisions
    line = str(first_row(page)["line 1"])
    assert decided.marks == int(line[-2])
    assert decided.reason == f"Seen in the working: {line[:-5]}"


def test_a_mark_and_a_reason_of_ones_own_and_a_comment(filled, sitting) -> None:
    [decided] = read(filled(marks="0", reason="no working", comment="Show the rule first"), sitting).decisions
    assert (decided.marks, decided.reason, decided.comment) == (0, "no working", "Show the rule first")


def test_an_answer_that_is_another_now_is_asked_again(filled, sitting) -> None:
    found = read(filled(seen_1="x"), sitting, written="9")
    assert found.decisions == ()
    assert "was `7` when it was looked at, now it is `9`" in found.lapsed[0]


@pytest.mark.parametrize(
    ("cells", "wrong"),
    [
        ({"seen_1": "maybe"}, "`maybe` is not a tick"),
        ({"marks": "1"}, "needs its reason"),
        ({"marks": "99", "reason": "generous"}, "is not a mark"),
        ({"seen_1": "x", "marks": "9"}, "leave one of them out"),
        ({"code": "ABCD-EFGH-J", "seen_1": "x"}, "is not the code of a paper"),
    ],
)
def test_what_cannot_be_is_told_by_row(filled, sitting, cells: dict[str, str], wrong: str) -> None:
    with pytest.raises(SheetFaulty) as refused:
        read(filled(**cells), sitting)
    [fault] = refused.value.faults
    assert fault.line == 2
    assert wrong in str(fault)


def test_another_table_decides_nothing(sitting) -> None:
    assert read_settled(b"code,part\nx,1a\n", "to-settle.csv", sitting, {}).decisions == ()
