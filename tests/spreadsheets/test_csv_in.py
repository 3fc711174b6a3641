"""CSV as colleges export it: every encoding, separator and line end gives the same rows; what is none is told by its line."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from courseware.spreadsheets.csv_in import MOST_BYTES, read_csv
from courseware.spreadsheets.rows import Row, TableFaulty

TABLE = "Ref,Name\n0012,Amara Okafor\n7,Łukasz Wójcik\n"  # invented, as is every learner here
ROWS = [("Ref", "Name"), ("0012", "Amara Okafor"), ("7", "Łukasz Wójcik")]
SAVE = "save it as `CSV UTF-8`"
CP1252 = f"The file is not UTF-8 and was read as Windows-1252: check the accents, or {SAVE}."


def wanted(headings: Sequence[str]) -> bool:
    return "Name" in headings


def read(data: bytes) -> tuple[list[Row], tuple[str, ...]]:
    rows, notes = read_csv(data, "a.csv", wanted)
    return list(rows), notes


def cells(data: bytes) -> list[tuple[str, ...]]:
    return [row.cells for row in read(data)[0]]


def fault(data: bytes) -> str:
    with pytest.raises(TableFaulty) as faulty:
        read(data)
    [told] = faulty.value.faults
    return str(told)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le-mark", "utf-16-be-mark"])
@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_encoding_separator_and_line_end_gives_the_same_rows(encoding: str, separator: str, end: str) -> None:
    text = TABLE.replace(",", separator).replace("\n", end)
    name, _, _ = encoding.partition("-mark")
    data = f"\ufeff{text}".encode(encoding.removesuffix("-mark")) if encoding.endswith("-mark") else text.encode(name)
    assert cells(data) == ROWS


@pytest.mark.parametrize("stated", ["sep=;\r\n", "SEP=;\n", '"sep=;"\n', "sep=;;;\n"])
def test_a_line_that_states_the_separator_is_skipped_and_counted(stated: str) -> None:
    rows, _ = read(f"{stated}Name;Ref\nAmara Okafor, the elder;1\n".encode())
    assert [(row.line, row.cells) for row in rows] == [(2, ("Name", "Ref")), (3, ("Amara Okafor, the elder", "1"))]


def test_the_separator_is_the_one_that_makes_the_headings() -> None:
    assert cells(b"a,b,c;Name\n1,2,3;x\n") == [("a,b,c", "Name"), ("1,2,3", "x")]
    assert cells(b"a;b|c|d\n") == [("a;b", "c", "d")]  # no heading is known: the one that splits most


def test_titles_above_the_headings_are_counted_and_left_out() -> None:
    rows, notes = read(b"Riverside College\n\nPrinted today\nRef,Name\n1,Amara\n")
    assert [(row.line, row.cells) for row in rows] == [(4, ("Ref", "Name")), (5, ("1", "Amara"))]
    assert notes == ("Not read: 2 rows above the headings.",)


def test_a_quoted_cell_over_two_lines_is_one_row_at_its_first_line() -> None:
    rows, _ = read(b'Ref,Name\n1,"Amara\nOkafor"\n2,Zo\n')
    assert [(row.line, row.cells[1]) for row in rows[1:]] == [(2, "Amara\nOkafor"), (4, "Zo")]


def test_windows_1252_is_read_with_a_note() -> None:
    rows, notes = read("Name\nZoë O’Brien\nSeán Núñez\n".encode("cp1252"))
    assert [row.cells for row in rows] == [("Name",), ("Zoë O’Brien",), ("Seán Núñez",)]
    assert notes == (CP1252,)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        ("Name\nZoë".encode("utf-16-le"), f"1:1: the file looks like UTF-16 without its mark; {SAVE}"),
        ("Name\nZoë".encode("utf-32"), f"1:1: the file is UTF-32; {SAVE}"),
        ("Name\nZoë".encode("utf-16")[:-1], f"1:1: the file is UTF-16 but breaks off or is damaged; {SAVE}"),
        (b"Name\nA\nB\x81\n", f"3:1: byte 0x81 is neither UTF-8 nor Windows-1252; {SAVE}"),
        (b"Name\n" + b"a" * MOST_BYTES, f"1:1: the file has {MOST_BYTES + 5} bytes; expected at most {MOST_BYTES}"),
        (b"Name\nA\r\nB\0", f"3:2: a NUL character, which no text holds; export the list again and {SAVE}"),
        (b'Name,Ref\nA,1\n"B,2\nC,3\n', "3:1: a quotation mark opened in this row is never closed; expected marks in pairs"),
        (b'Name,Ref\n"A"x,1\n', "2:1: text stands after a closing quotation mark; expected a separator there, or the mark doubled"),
        (b"Name,Ref\n" + b"a" * 131_073 + b",2\n", "2:1: a cell of this row is far too long; check the quotation marks"),
    ],
    ids=["utf-16-no-mark", "utf-32", "utf-16-breaks-off", "no-encoding", "too-big", "nul", "open-quote", "after-quote", "long-cell"],
)  # fmt: skip
def test_what_is_no_csv_is_told_by_its_line(data: bytes, told: str) -> None:
    assert fault(data) == f"a.csv:{told}"


def test_the_largest_file_and_the_longest_cell_are_read() -> None:
    longest = b"a" * 131_072  # what Python's csv module takes in one field
    most = b"Name\n" + (b"a" * 9_999 + b"\n") * ((MOST_BYTES - 5) // 10_000) + b"b" * ((MOST_BYTES - 5) % 10_000)
    assert len(most) == MOST_BYTES
    assert cells(b"Name\n" + longest) == [("Name",), (longest.decode(),)]
    assert cells(most)[-1] == ("b" * 9_995,)
