"""Class lists as colleges export them, CSV or workbook: every set of headings gives the same learners, all invented."""

from __future__ import annotations

import io

import openpyxl
import pytest

from courseware.papers.class_list import MOST_LEARNERS, read_class_list
from courseware.papers.group import Learner
from courseware.papers.sheet_format import STANDARD, SheetFormat
from courseware.spreadsheets.rows import TableFaulty


def read(data: bytes, file: str = "group-a.csv") -> list[tuple[str, str]]:
    return [(learner.reference, learner.name) for learner in read_class_list(data, file).learners]


def book(*rows: tuple[object, ...]) -> bytes:
    made = openpyxl.Workbook()
    for row in rows:
        made.active.append(row)
    made.save(data := io.BytesIO())
    return data.getvalue()


def test_a_workbook_gives_the_learners_that_a_csv_gives() -> None:
    assert read(book(("Name", "ID"), ("Amara Okafor", "0012"), ("Łukasz Wójcik", 7)), "group-a.xlsx") == read(
        "Name,ID\nAmara Okafor,0012\nŁukasz Wójcik,7\n".encode()
    )


def test_lines_are_counted_as_the_tutors_editor_counts_them() -> None:
    found = read_class_list(b"sep=;\r\nName;Ref\r\nAmara Okafor;1\r\nAmara Okafor;1\r\n", "group-a.csv")
    assert "lines 3 and 4" in found.notes[0]


def test_what_is_said_of_the_file_is_said_first() -> None:
    found = read_class_list("Name,Group\nZoë O’Brien,A\n".encode("cp1252"), "group-a.csv")
    assert [learner.name for learner in found.learners] == ["Zoë O’Brien"]
    assert ["read as Windows-1252" in found.notes[0], found.notes[1]] == [True, "Not used: the column `Group`."]


@pytest.mark.parametrize(
    ("headings", "row", "learner"),
    [
        ("Name", "Amara Okafor", ("", "Amara Okafor")),
        ("Learner", "Amara Okafor", ("", "Amara Okafor")),
        ("  FULL   name ,ULN", "Amara Okafor,123", ("123", "Amara Okafor")),
        ("Student Name,Student ID", "Amara Okafor,123", ("123", "Amara Okafor")),
        ("Forename,Surname,No.", "Amara,Okafor,3", ("3", "Amara Okafor")),
        ("Surname;First name;Learner ref", "Okafor;Amara;A-1", ("A-1", "Amara Okafor")),
        ("Family name,Given names", "Okafor,Amara Grace", ("", "Amara Grace Okafor")),
        ("Id,Reference,Name", "1,R-1,Amara Okafor", ("R-1", "Amara Okafor")),  # the surest heading first
        ("First name,Surname,Name", "A,B,Amara Okafor", ("", "Amara Okafor")),
        ("Name,Group,,Notes", "Amara Okafor,A,,late", ("", "Amara Okafor")),
        ("Name,Ref,,", "Amara Okafor,1,,", ("1", "Amara Okafor")),
        ("Name,Ref", "Amara Okafor,1,,,", ("1", "Amara Okafor")),  # a spreadsheet's empty cells at the right
        ("Name,Ref", '"Okafor, Amara", 1 ', ("1", "Okafor, Amara")),
        ("Name,Ref", '"Amara ""Ama"" Okafor",1', ("1", 'Amara "Ama" Okafor')),
        ("Name, Ref", 'Amara Okafor, "1"', ("1", "Amara Okafor")),
        ("Name,Ref", '"Amara\nOkafor",1', ("1", "Amara Okafor")),
        ("Name,Notes; or none,Ref", "Amara Okafor,a;b;c,1", ("1", "Amara Okafor")),
        ("\n\nName,Ref\n\n", "Amara Okafor,1", ("1", "Amara Okafor")),
    ],
)  # fmt: skip
def test_headings_say_which_columns_hold_what(headings: str, row: str, learner: tuple[str, str]) -> None:
    assert read(f"{headings}\n{row}\n".encode()) == [learner]


@pytest.mark.parametrize("name", [
    "=cmd|'/C calc'!A0", "+1+1", "-1", "@SUM(1)", "'=1", "＝1+1",  # never live: the marking sheet shields them
    "<script>alert(1)</script>", "{{ 7 * 7 }}", "$(id)", "../../etc/passwd", "CON", "nul.pdf", "-rf", "...", "😀", "李明",
    "Nguyễn Thị Hằng", "O'Brien-Smythe", "a:b", "007", "%s %00",
])  # fmt: skip
def test_a_name_stands_as_typed(name: str) -> None:
    assert read(f"Ref;Name\n1;{name}\n".encode()) == [("1", name)]


def test_references_are_text() -> None:
    assert read(b"Name,ID\nA,007\nB,7\nC,1.50\n") == [("007", "A"), ("7", "B"), ("1.50", "C")]


def test_blank_rows_are_skipped_and_learners_keep_their_order() -> None:
    found = read_class_list(b"Name,ID\n\nB,1\n , \n,,,\nA,1\n\n\n", "group-a.csv")
    assert [learner.name for learner in found.learners] == ["B", "A"]
    assert found.notes == ("The reference `1` stands on lines 3 and 6: whose is it?",)


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        ("Name,Group,House\nA,1,2\n", ["Not used: the columns `Group`, `House`."]),
        ("Name,Group\nA,1\n", ["Not used: the column `Group`."]),
        ("Name\nAnn Lee\nann lee\nAnn  Lee\n", ["The name `Ann Lee` stands on lines 2, 3 and 4: the same person, or namesakes?"]),
        ("Name\nZoë\nZoe\u0308\n", ["The name `Zoë` stands on lines 2 and 3: the same person, or namesakes?"]),
        ("Name\nAn\u200bn\nBo\u202eb\n", ["Unseen or piled-up characters were left out of the name on lines 2 and 3."]),
        ("Name,ULN\nA,1.23E+09\nB,1234567890\n", ["A spreadsheet has shortened the reference on line 2 to a power of ten: format that column as text and type it again."]),
        ("Name,\x1b[31m\nA,1\n", ["Not used: the column `<U+001B>[31m`."]),
        ("Name\n12345\nA\n2026-01-01\nTRUE\n", ["A cell that is hardly a name (a number, a date, N/A) was taken as one on lines 2, 4 and 5: is it the right column?"]),
        ("Name\nN/A\nA\n#REF!\nnull\nNonny\n", ["A cell that is hardly a name (a number, a date, N/A) was taken as one on lines 2, 4 and 5: is it the right column?"]),
        ("Name\nA1\nTrue North\n", []),
        ("Name\nA\nB\n", []),
    ],
)  # fmt: skip
def test_what_a_tutor_should_look_at_is_noted(text: str, notes: list[str]) -> None:
    assert list(read_class_list(text.encode(), "group-a.csv").notes) == notes


def test_a_long_list_of_doubts_is_counted() -> None:
    names = [f"Learner {n}" for n in range(12)]
    notes = read_class_list("\n".join(["Name", *["Twin"] * 13, *names, *names]).encode(), "group-a.csv").notes
    assert notes[0].startswith("The name `Twin` stands on lines 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 3 more: ")
    assert len(notes) == 11
    assert notes[-1] == "3 more names stand on several lines."


def test_the_longest_list_is_read() -> None:
    rows = [f"Learner {n}" for n in range(MOST_LEARNERS)]
    assert len(read("\n".join(["Name", *rows]).encode())) == MOST_LEARNERS


def test_a_column_paper_says_how_each_learners_sheets_are_set_and_does_not_tell_learners_apart() -> None:
    found = read_class_list(b"Name,Paper\nAmara Okafor,large 18\nZoe Lund,\n", "group-a.csv")
    assert [who.sheets for who in found.learners] == [SheetFormat(size=18), STANDARD]
    assert found.notes == ()
    assert found.learners[0] == Learner(name="Amara Okafor")


def test_a_word_that_is_no_format_is_told_with_its_line() -> None:
    with pytest.raises(TableFaulty) as refused:
        read_class_list(b"Name,Paper\nAmara Okafor,large 18\nZoe Lund,bigger\n", "group-a.csv")
    (fault,) = refused.value.faults
    assert (fault.line, fault.column) == (3, 2)
    assert "`bigger`" in str(fault)
