"""Marking sheets that nobody would type on purpose: each read, refused with its line, or put to a person. None guessed."""

from __future__ import annotations

import datetime
import io
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook

from courseware.files.bank_files import read_banks
from courseware.marking.mark import Marked, mark_scripts
from courseware.marking.marking_sheet import marking_sheet
from courseware.marking.read_answer import read_figure, settled
from courseware.marking.script_sheet import read_scripts
from courseware.papers.codes import code
from courseware.papers.deal import issue_exercise
from courseware.papers.group import Learner
from courseware.papers.sitting import IssuedPaper, Sitting, SourceFile
from courseware.settings.settings import DEFAULTS
from courseware.text_files.faults import FileFaulty

OWN = Path(__file__).with_name("bank_for_marking.yaml")
PAPERS = 9
SEED = "a seed for hostile sheets"


def sitting_of(exercise_name: str) -> Sitting:
    """Nine papers of one exercise, all of the same variant: every answer is 910 mm."""
    bank = read_banks([OWN])[0][0]
    exercise = next(exercise for exercise in bank.exercises if exercise.name == exercise_name)
    papers = tuple(
        IssuedPaper(
            code=code(SEED, str(number)),
            learner=Learner(name=f"=cmd|' /C calc'!A{number}"),
            exercises=(issue_exercise(1, bank, exercise, {"bricks": 4}, {}, SEED, str(number)),),
        )
        for number in range(PAPERS)
    )
    source = SourceFile(file=bank.file, sha256=bank.sha256, text=bank.text)
    return Sitting(
        code=code(SEED, "sitting"), title="Marking", date="2026-01-05", group="Group T", seed=SEED, settings=DEFAULTS,
        version="0", banks=(source,), safety=None, papers=papers,
    )  # fmt: skip


ONE, TWO = sitting_of("one-figure"), sitting_of("one-opening")


def sheet(text: str, sitting: Sitting = ONE) -> str:
    """A sheet with this sitting's codes and parts in place of `AAAA-0001` and `q1`."""
    for number, paper in enumerate(sitting.papers, 1):
        text = text.replace(f"AAAA-{number:04}", paper.code)
    return text.replace("q1", "1a").replace("q2", "1b")


def marked(text: str, sitting: Sitting = ONE, encoding: str = "utf-8") -> Marked:
    data = sheet(text, sitting).encode(encoding)
    return mark_scripts(sitting, read_scripts(data, "answers.csv", sitting).scripts)


def refused(text: str, sitting: Sitting = ONE) -> list[int]:
    """The lines that are named when the sheet is refused."""
    with pytest.raises(FileFaulty) as refusal:
        read_scripts(sheet(text, sitting).encode(), "answers.csv", sitting)
    return [fault.line for fault in refusal.value.faults]


def read_cells(text: str) -> list[Fraction | None]:
    """The figure in each row, in mm; None where a person is asked. Every row must come through."""
    found = []
    for script in read_scripts(sheet(text).encode(), "answers.csv", ONE).scripts:
        written = read_figure(script.cells["1a"], "mm")
        found.append(settled(written, Fraction(910)) if written.reading == "figure" else None)
    return found


# Sheets by what is odd about them. Rows are numbered from 1 in their codes.
SHEETS = {
    "one length": 'code,q1\nAAAA-0001,910mm\nAAAA-0002,910 mm\nAAAA-0003,0.91 m\nAAAA-0004,91cm\nAAAA-0005,910 MM\nAAAA-0006,910\nAAAA-0007,"0,91m"\n',
    "decimal commas": "code;q1\nAAAA-0001;0,91\nAAAA-0002;12,5\nAAAA-0003;,5\nAAAA-0004;1.125,5\n",
    "no number": "code,q1\nAAAA-0001,\nAAAA-0002,-\nAAAA-0003,n/a\nAAAA-0004,?\nAAAA-0005,twelve\nAAAA-0006,about 12\nAAAA-0007,12 or 13\nAAAA-0008,12-13\nAAAA-0009,see back\n",
    "minus signs": "code,q1\nAAAA-0001,-5\nAAAA-0002,−5\nAAAA-0003,–5\n",
    "formulas": "code,q1\nAAAA-0001,=1+1\nAAAA-0002,=cmd|'/C calc'!A0\nAAAA-0003,+5\nAAAA-0004,@x\n",
    "two points": 'code,q1\nAAAA-0001,1.2.3\nAAAA-0002,1..2\nAAAA-0003,"12,34,567"\nAAAA-0004,"1,2,3"\nAAAA-0005,5..\n',
    "other units": "code,q1\nAAAA-0001,910 M\nAAAA-0002,910 kg\nAAAA-0003,910 bricks\nAAAA-0004,£5 mm\n",
    "unknown codes": "code,q1\nZZZZ-9999,5\nAAAA-000O,5\n",
    "a column missing": "code,q2\nAAAA-0001,5\n",
    "a row shifted": "code,q1,q2\nAAAA-0001,5,6\nAAAA-0002,1,125,7\n",
    "a half": "code,q1\nAAAA-0001,½\n",
    "a code as a number": "code,q1\n1.23E+11,5\n",
}  # fmt: skip


def test_one_length_in_seven_ways_of_writing_it() -> None:
    papers = marked(SHEETS["one length"]).papers
    assert [(paper.total, paper.marks[0].how) for paper in papers] == [(2, "right")] * 7


def test_decimal_commas_between_semicolons() -> None:
    figures = [Fraction(text) for text in ("0.91", "12.5", "0.5", "1125.5")]
    assert read_cells(SHEETS["decimal commas"]) == figures


def test_no_number_is_asked_about_and_never_nought() -> None:
    found = marked(SHEETS["no number"] + "AAAA-0001,nr\n")
    assert [paper.marks[0].how for paper in found.papers] == ["unreached"] + ["asked"] * 8
    assert [question.line for question in found.questions] == [3, 4, 5, 6, 7, 8, 9, 10]


def test_a_row_without_answers_is_a_paper_that_is_not_in_yet() -> None:
    found = marked(SHEETS["no number"])
    assert ONE.papers[0].code not in {paper.code for paper in found.papers}


def test_three_signs_for_minus() -> None:
    assert read_cells(SHEETS["minus signs"]) == [-5] * 3


def test_formulas_are_words_to_a_person_and_a_plus_is_a_sign() -> None:
    assert read_cells(SHEETS["formulas"]) == [None, None, 5, None]
    assert len(marked(SHEETS["formulas"]).questions) == 3


def test_two_points_are_no_figure() -> None:
    assert [q.written for q in marked(SHEETS["two points"]).questions] == [
        "1.2.3",
        "1..2",
        "12,34,567",
        "1,2,3",
        "5..",
    ]


def test_a_weight_is_a_figure_with_the_wrong_unit_and_a_capital_m_is_asked_about() -> None:
    found = marked(SHEETS["other units"])
    assert [(paper.marks[0].how, paper.total) for paper in found.papers] == [
        ("asked", 0),
        ("unit", 1),
        ("asked", 0),
        ("asked", 0),
    ]


def test_an_unknown_code_and_a_mistyped_one_are_refused_by_line() -> None:
    own = ONE.papers[0].code
    mistyped = own[:3] + ("B" if own[3] != "B" else "C") + own[4:]
    assert refused(SHEETS["unknown codes"].replace("AAAA-000O", mistyped)) == [2, 3]
    assert refused(SHEETS["a code as a number"]) == [2]


def test_a_missing_column_is_not_a_column_of_noughts() -> None:
    assert refused(SHEETS["a column missing"]) == [1]


def test_a_comma_that_shifts_a_row_is_refused_by_line() -> None:
    assert refused(SHEETS["a row shifted"], TWO) == [3]


def test_a_half_from_windows_is_a_half() -> None:
    data = sheet(SHEETS["a half"]).encode("cp1252")
    scripts = read_scripts(data, "answers.csv", ONE)
    assert scripts.scripts[0].cells["1a"] == "½"
    assert any("Windows-1252" in note for note in scripts.notes)


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
def test_encodings_that_spreadsheets_write(encoding: str) -> None:
    assert marked("code,q1\nAAAA-0001,910 mm\n", encoding=encoding).papers[0].total == 2


@pytest.mark.parametrize(("text", "lines"), [
    ("", [1]),
    ("\n\n", [1]),
    ("q1\n910\n", [1]),
    ("code,q1,q1\nAAAA-0001,5,6\n", [1]),
    ("code,q1\nAAAA-0001\n", [2]),
    ("code,q1\nAAAA-0001,5\nAAAA-0001,6\n", [3]),
    ("code,status,q1\nAAAA-0001,poorly,5\n", [2]),
    ("code,q1\n,910\n", [2]),
    (f"code,q1\nAAAA-0001,{'9' * 5000}\n", [2]),
    ("code,q1\nAAAA-0001,5\0\n", [2]),
])  # fmt: skip
def test_sheets_that_cannot_be_used_name_the_line(text: str, lines: list[int]) -> None:
    assert refused(text) == lines


def test_every_fault_is_told_at_once() -> None:
    assert refused("code,q1\nZZZZ-9999,5\nAAAA-0002,5,6,7\nYYYY-1111,6\n") == [2, 3, 4]


def test_a_paper_may_stand_again_when_it_was_resubmitted() -> None:
    found = marked("code,status,q1\nAAAA-0001,,900\nAAAA-0001,r,910\nAAAA-0002,Absent,\nAAAA-0003,L,910\n")
    assert [(paper.status, paper.total) for paper in found.papers] == [("resubmitted", 2), ("absent", 0), ("late", 2)]


def test_hostile_names_and_codes_come_to_no_harm_in_what_is_said() -> None:
    with pytest.raises(FileFaulty) as refusal:
        read_scripts(sheet("code,q1\n\x1b[31m\u202eAAAA,5\n").encode(), "answers.csv", ONE)
    assert not set(str(refusal.value)) & {"\x1b", "\u202e"}


def workbook(*cells: Any) -> bytes:
    """The marking sheet as issued, with these cells typed under the first part, a paper after the other."""
    book = load_workbook(io.BytesIO(marking_sheet(ONE)))
    answers = book["Answers"]
    column = next(cell.column for cell in answers[1] if cell.value == "1a")
    for row, value in enumerate(cells, 2):
        cell = answers.cell(row, column)
        cell.number_format = "General"
        cell.value = value
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def test_the_sheet_as_issued_comes_back() -> None:
    scripts = read_scripts(workbook("910 mm", "½", "1/2", "1,125", "=1+1 m"), "answers.xlsx", ONE).scripts
    assert [script.cells["1a"] for script in scripts][:4] == ["910 mm", "½", "1/2", "1,125"]


@pytest.mark.parametrize(
    ("typed", "shown"), [(910, "910"), (910.0, "910"), (0.91, "0.91"), (112.5, "112.5"), (-5, "-5")]
)
def test_a_number_typed_into_a_cell_that_is_no_longer_text(typed: float, shown: str) -> None:
    assert read_scripts(workbook(typed), "answers.xlsx", ONE).scripts[0].cells["1a"] == shown


@pytest.mark.parametrize("typed", [datetime.datetime(2026, 5, 2), datetime.time(9, 30), True, "#REF!", "=900+10"])
def test_what_a_spreadsheet_made_of_an_answer_is_asked_about(typed: Any) -> None:
    """12-13 becomes a date, 9:30 a time; a formula that was never worked out shows nothing."""
    found = mark_scripts(ONE, read_scripts(workbook(typed), "answers.xlsx", ONE).scripts)
    assert [(mark.how, mark.marks) for mark in found.papers[0].marks] == [("asked", 0)]
    assert [(question.label, question.line) for question in found.questions] == [("1a", 2)]


def test_an_empty_sheet_as_issued_is_nobodys_paper() -> None:
    assert read_scripts(marking_sheet(ONE), "answers.xlsx", ONE).scripts == ()


@pytest.mark.parametrize("data", [b"PK\x03\x04 no workbook", b"\xd0\xcf\x11\xe0 an old one", b"\xff\xfe\x00"])
def test_what_is_no_workbook_is_refused(data: bytes) -> None:
    with pytest.raises(FileFaulty):
        read_scripts(data, "answers.xlsx", ONE)
