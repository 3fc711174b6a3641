"""Scripts without the program's marks, as a sheet to fill in; and what comes back on it."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.marking.marks import Mark, MarkedPaper
from courseware.papers.compose import compose_key, read_sources
from courseware.quality.marks_by_hand import hand_page, read_hand_marks, script_to_mark, unmarked
from courseware.spreadsheets.rows import TableFaulty
from courseware.spreadsheets.xlsx_out import safe_workbook

WHY = "One joint too many was taken."


@pytest.fixture(scope="module")
def scripts(dealt):
    """Two scripts of three parts and more, each answer a formula's look-alike, every mark with the program's why."""
    sitting = dealt("opening_sizes", exercises=2)
    found = []
    for place, issued in enumerate(sitting.papers[:2]):
        marks = tuple(
            Mark(label=part.label, marks=0, of=part.marks, how="unknown", why=WHY, written=f"=A{place}")
            for part in issued.parts
        )
        paper = MarkedPaper(code=issued.code, status="", marks=marks)
        found.append(script_to_mark(paper, 1, compose_key(sitting, place, read_sources(sitting))))
    return tuple(found)


def book(scripts) -> bytes:
    return safe_workbook([hand_page(scripts)], "2026-01-06")


def filled(scripts, *changes: tuple[str, object]) -> bytes:
    opened = openpyxl.load_workbook(BytesIO(book(scripts)))
    for place, value in changes:
        opened["Marks"][place] = value
    written = BytesIO()
    opened.save(written)
    return written.getvalue()


def test_the_sheet_has_what_was_asked_and_written_and_the_key_but_no_mark_of_the_program(scripts) -> None:
    rows = list(openpyxl.load_workbook(BytesIO(book(scripts)))["Marks"].values)
    first, part = scripts[0], scripts[0].parts[0]
    assert rows[1] == (first.code, 1, part.label, part.ask, part.unit or None, "=A0", part.key, part.of, None, None)
    assert len(rows) == 1 + sum(len(script.parts) for script in scripts)
    everything = " ".join(str(cell) for row in rows for cell in row)
    assert WHY not in everything
    assert "unknown" not in everything


def test_marks_come_back_beside_the_answers_they_were_given_to(scripts) -> None:
    marks = read_hand_marks(filled(scripts, ("I2", 1), ("J2", "method seen"), ("I3", 0)), "sheet.xlsx", scripts)
    first, second = scripts[0].parts[:2]
    assert [(one.label, one.marks, one.note, one.written) for one in marks] == [
        (first.label, 1, "method seen", "=A0"),
        (second.label, 0, "", "=A0"),
    ]
    assert [(script.code, left) for script, left in unmarked(scripts, marks)] == [
        (scripts[0].code, len(scripts[0].parts) - 2)
    ]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ([("I2", 99)], "sheet.xlsx:2:1: `99` is not a mark;"),
        ([("I2", -1)], "`-1` is not a mark"),
        ([("I2", "1.5")], "`1.5` is not a mark"),
        ([("I2", "٢")], "is not a mark"),
        ([("I2", "-")], "a mark is taken back with its reason"),
        ([("J2", "fine")], "a note stands without its mark"),
        ([("I2", 1), ("A2", "AAAA-AAAA-A")], "is none of the scripts"),
        ([("I2", 1), ("B2", 2)], "attempt `2`, is none of the scripts"),
        ([("I2", 1), ("C2", "9z")], "`9z` is no part of the script"),
        ([("I2", 1), ("F2", "912")], "is another now: `=A0`; make the sheet again"),
        ([("I2", 1), ("C3", "1a"), ("I3", 1)], "part 1a of this script stands on an earlier row too"),
        ([("I2", 1), ("J2", "x" * 301)], "the note has more than 300 characters"),
        ([("I2", 1), ("J2", "a\u202eb")], "or some that do not show"),
        ([("I1", "points")], "this is not a sheet of marks given by hand"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_by_its_row(scripts, changes, says) -> None:
    with pytest.raises(TableFaulty) as wrong:
        read_hand_marks(filled(scripts, *changes), "sheet.xlsx", scripts)
    assert says in str(wrong.value)


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04", b"script,attempt\n", b"\xd0\xcf\x11\xe0"])
def test_what_is_no_workbook_is_refused(scripts, data: bytes) -> None:
    with pytest.raises(TableFaulty):
        read_hand_marks(data, "sheet.xlsx", scripts)
