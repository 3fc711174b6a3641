"""The marking sheet read back: as a workbook, as the CSV that colleges make of it, and what is refused."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from io import BytesIO

import pytest
from openpyxl import load_workbook

from courseware.banks import FileFaulty
from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.marking_sheet import marking_sheet
from courseware.marking.script_sheet import read_scripts


@pytest.fixture(scope="module")
def sitting(dealt):
    return dealt("opening_sizes", 3)


def labels(sitting) -> list[str]:
    return [part.label for exercise in sitting.papers[0].exercises for part in exercise.parts]


def table(sitting, *rows: dict[str, str], headings: list[str] | None = None, separator: str = ",") -> str:
    """A CSV sheet: rows by label; `code` is the first paper's unless given."""
    names = headings or ["code", "status", *labels(sitting)]
    text = io.StringIO()
    writer = csv.writer(text, delimiter=separator)
    writer.writerow(names)
    for row in rows:
        writer.writerow([{"code": sitting.papers[0].code, **row}.get(name, "") for name in names])
    return text.getvalue()


def faults(sitting, text: str) -> list[str]:
    with pytest.raises(FileFaulty) as found:
        read_scripts(text.encode(), "sheet.csv", sitting)
    return [str(fault) for fault in found.value.faults]


def test_a_workbook_comes_back_exactly_as_it_was_filled_in(sitting) -> None:
    scripts = invented_scripts(sitting)
    read = read_scripts(marking_sheet(sitting, scripts), "marking-sheet.xlsx", sitting)
    assert [(s.code, s.status) for s in read.scripts] == [(s.code, s.status) for s in scripts]
    for back, made in zip(read.scripts, scripts, strict=True):
        assert {label: text for label, text in back.cells.items() if text} == {
            label: text for label, text in made.cells.items() if text
        }
    assert read.notes == ()


def test_a_row_with_nothing_in_it_is_a_paper_not_in_yet(sitting) -> None:
    read = read_scripts(marking_sheet(sitting), "marking-sheet.xlsx", sitting)
    assert read.scripts == ()
    assert [script.code for script in read.blank] == [paper.code for paper in sitting.papers]


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_csv_comes_in_the_separators_and_encodings_of_colleges(sitting, separator, encoding) -> None:
    text = table(sitting, {"1a": "2½ bags", "1b": "1,125"}, separator=separator)
    [script] = read_scripts(text.encode(encoding), "sheet.csv", sitting).scripts
    assert (script.cells["1a"], script.cells["1b"]) == ("2½ bags", "1,125")


def test_codes_are_read_as_people_type_them(sitting) -> None:
    typed = sitting.papers[1].code.lower().replace("-", " ")
    [script] = read_scripts(table(sitting, {"code": typed, "1a": "1"}).encode(), "sheet.csv", sitting).scripts
    assert script.code == sitting.papers[1].code


@pytest.mark.parametrize(
    ("typed", "status"),
    [("absent", "absent"), ("A", "absent"), ("Late", "late"), ("present", ""), ("r", "resubmitted")],
)
def test_the_status_says_what_became_of_a_paper(sitting, typed, status) -> None:
    [script] = read_scripts(table(sitting, {"status": typed, "1a": "5"}).encode(), "sheet.csv", sitting).scripts
    assert script.status == status


def test_a_comma_without_quotation_marks_moves_the_row_and_is_refused_by_line(sitting) -> None:
    text = (
        table(sitting, {"1a": "5"})
        + ",".join([sitting.papers[1].code, "", "1,125", *["7"] * (len(labels(sitting)) - 1)])
        + "\r\n"
    )
    [fault] = faults(sitting, text)
    assert fault.startswith("sheet.csv:3:")
    assert "put quotation marks round an answer that holds the separator" in fault


def test_every_wrong_code_is_named_by_line(sitting) -> None:
    good = sitting.papers[0].code
    swapped = good[:-1] + ("A" if good[-1] != "A" else "B")
    text = table(sitting, {"code": "ZZZZ-9999", "1a": "5"}, {"code": swapped, "1a": "5"}, {"code": "", "1a": "5"})
    first, second, third = faults(sitting, text)
    assert first == (
        "sheet.csv:2:1: `ZZZZ-9999` is not the code of a paper of this sitting; copy it from the head of the paper"
    )
    assert second == f"sheet.csv:3:1: `{swapped}` is not the code of a paper of this sitting; did you mean `{good}`?"
    assert third.startswith("sheet.csv:4:1: no code stands here")


def test_a_missing_question_is_not_a_nought(sitting) -> None:
    names = ["code", *labels(sitting)[1:]]
    [fault] = faults(sitting, table(sitting, headings=names))
    assert fault.startswith("sheet.csv:1:1: there is no column `1a`")


def test_a_question_that_stands_twice_is_refused(sitting) -> None:
    [fault] = faults(sitting, table(sitting, headings=["code", *labels(sitting), "1A"]))
    assert "the heading `1A` stands twice" in fault


def test_a_paper_in_two_rows_is_refused_unless_it_was_resubmitted(sitting) -> None:
    [fault] = faults(sitting, table(sitting, {"1a": "5"}, {"1a": "6"}))
    assert fault.startswith("sheet.csv:3:1:")
    assert "stands on line 2 too; one row a paper; write `resubmitted` under status" in fault
    again = table(sitting, {"1a": "5"}, {"1a": "6", "status": "resubmitted"})
    assert len(read_scripts(again.encode(), "sheet.csv", sitting).scripts) == 2


def test_an_unknown_status_is_refused(sitting) -> None:
    [fault] = faults(sitting, table(sitting, {"status": "ill"}))
    assert "the status `ill` is not known; expected absent, late, resubmitted or nothing" in fault


def test_a_column_of_the_tutors_own_is_told_of(sitting) -> None:
    text = table(sitting, {"1a": "5"}, headings=["code", *labels(sitting), "Van"])
    assert read_scripts(text.encode(), "sheet.csv", sitting).notes == ("Not used: the column `Van`.",)


def decided(sitting, *rows: tuple[str, ...]) -> bytes:
    book = load_workbook(BytesIO(marking_sheet(sitting)))
    for row, texts in enumerate(rows, 2):
        for column, text in enumerate(texts, 1):
            book["Decisions"].cell(row, column).value = text
    written = BytesIO()
    book.save(written)
    return written.getvalue()


def test_decisions_carry_a_mark_with_its_reason_or_a_comment(sitting) -> None:
    code = sitting.papers[0].code
    data = decided(sitting, (code, "1a", "1", "the method is shown"), (code, "1b", "", "", "Set it out again."))
    first, second = read_scripts(data, "marking-sheet.xlsx", sitting).decisions
    assert (first.label, first.marks, first.reason) == ("1a", 1, "the method is shown")
    assert (second.label, second.marks, second.comment) == ("1b", None, "Set it out again.")


@pytest.mark.parametrize(
    ("row", "wrong"),
    [
        (("ZZZZ-ZZZZ-Z", "1a", "1", "why"), "is not the code of a paper of this sitting"),
        (("", "9z", "1", "why"), "`9z` is not a part of the paper; parts are 1a, 1b"),
        (("", "1a", "99", "why"), "`99` is not a mark in whole marks from 0 to"),
        (("", "1a", "-1", "why"), "`-1` is not a mark in whole marks from 0 to"),
        (("", "1a", "1", " "), "a mark that an assessor decides needs its reason"),
    ],
)
def test_a_decision_that_cannot_stand_is_refused(sitting, row, wrong) -> None:
    data = decided(sitting, (row[0] or sitting.papers[0].code, *row[1:]))
    with pytest.raises(FileFaulty, match="sheet of decisions:2:1"):
        read_scripts(data, "marking-sheet.xlsx", sitting)
    with pytest.raises(FileFaulty) as found:
        read_scripts(data, "marking-sheet.xlsx", sitting)
    assert wrong in str(found.value)


def test_a_formula_without_a_result_is_put_to_a_person(sitting) -> None:
    book = load_workbook(BytesIO(marking_sheet(sitting)))
    book["Answers"]["E2"] = "=1+1"
    book["Answers"]["E2"].data_type = "f"
    written = BytesIO()
    book.save(written)
    [script] = read_scripts(written.getvalue(), "marking-sheet.xlsx", sitting).scripts
    assert script.unread == {"1a": "it holds a formula without a stored result"}


def filled_in(sitting, change) -> bytes:
    """The marking sheet with its first paper's row changed by `change(sheet, row, columns by label)`."""
    book = load_workbook(BytesIO(marking_sheet(sitting, invented_scripts(sitting))))
    sheet = book.worksheets[0]
    top = next(cells for cells in sheet.iter_rows() if any(cell.value == "code" for cell in cells))
    columns = {str(cell.value): cell.column for cell in top}
    change(sheet, top[0].row + 1, columns)
    kept = BytesIO()
    book.save(kept)
    return kept.getvalue()


@pytest.mark.parametrize("down", [0, 1])
def test_cells_under_a_merge_are_put_to_a_person_and_never_blank(sitting, down) -> None:
    first, second, third = labels(sitting)[:3]

    def change(sheet, row, columns) -> None:
        sheet.merge_cells(start_row=row, end_row=row + down, start_column=columns[first], end_column=columns[second])

    read = read_scripts(filled_in(sitting, change), "sheet.xlsx", sitting)
    told = read.scripts[0].unread
    assert set(told) == {second}, "the first cell holds what the merge shows"
    assert "is merged with" in told[second]
    assert "take the merge apart" in told[second]
    assert set(read.scripts[1].unread) == ({first, second} if down else set())
    assert third not in told


@pytest.mark.parametrize("what", ["name", "reference"])
def test_a_row_beside_whose_code_another_learner_stands_is_refused_by_line(sitting, what) -> None:
    own, other = [
        replace(paper, learner=replace(paper.learner, name=name, reference=ref))
        for paper, name, ref in zip(sitting.papers, ("Ann Lee", "Bo Ek"), ("A1", "B2"), strict=False)
    ]
    group = replace(sitting, papers=(own, other))
    named = {"name": {own.code: "Ann Lee", other.code: "bo  ek"}, "reference": {own.code: "A1", other.code: "b2"}}[what]
    label = labels(group)[0]
    names = ["code", what, *labels(group)]

    def sheet(*codes: str, answers: str = "1") -> str:
        rows = zip((own.code, other.code), codes, strict=True)
        return table(group, *({"code": code, what: named[of], label: answers} for code, of in rows), headings=names)

    assert len(read_scripts(sheet(own.code, other.code).encode(), "sheet.csv", group).scripts) == 2
    told = faults(group, sheet(other.code, own.code))
    assert len(told) == 2
    assert all(f"the {what} in this row is that of the paper" in line for line in told)
    assert not read_scripts(sheet(other.code, own.code, answers="").encode(), "sheet.csv", group).scripts
