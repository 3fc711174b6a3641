"""A table is CSV or XLSX by how it begins and is called; what is neither is told what to do."""

from __future__ import annotations

import io

import openpyxl
import pytest

from courseware.spreadsheets.rows import TableFaulty
from courseware.spreadsheets.table_in import read_table

OLD_WORKBOOK = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"  # how a compound file begins: MS-CFB, 2.2
LOCKED = (
    "this is an old .xls workbook, or one locked with a password; save it without a password as .xlsx or as `CSV UTF-8`"
)
ARCHIVE = (
    "this is a workbook or a ZIP archive, not a CSV list; "
    "give a workbook a name that ends in .xlsx, or save it as `CSV UTF-8`"
)


def workbook() -> bytes:
    made = openpyxl.Workbook()
    for row in (("Name", "ID"), ("A", 1), (None, 2)):
        made.active.append(row)
    made.active.merge_cells("A2:A3")
    made.save(data := io.BytesIO())
    return data.getvalue()


def rows(data: bytes, file: str, **more: bool) -> list[tuple[tuple[str, ...], list[int]]]:
    found, _ = read_table(data, file, lambda headings: "Name" in headings, **more)
    return [(row.cells, sorted(row.unread)) for row in found]


@pytest.mark.parametrize("file", ["a.xlsx", "A.XLSX", "a.xlsm"])
def test_a_workbook_is_known_by_its_ending(file: str) -> None:
    assert rows(workbook(), file) == [(("Name", "ID"), []), (("A", "1"), []), (("", "2"), [])]


@pytest.mark.parametrize("file", ["a.csv", "a.txt", "list"])
def test_everything_else_is_csv(file: str) -> None:
    assert rows(b"Name,ID\nA,1\n", file) == [(("Name", "ID"), []), (("A", "1"), [])]


def test_merges_are_asked_for() -> None:
    assert rows(workbook(), "a.xlsx", merges=True)[-1] == (("", "2"), [0])


@pytest.mark.parametrize(
    ("data", "file", "told"),
    [
        (OLD_WORKBOOK, "a.csv", LOCKED),
        (OLD_WORKBOOK, "a.xlsx", LOCKED),
        (OLD_WORKBOOK, "a.xls", LOCKED),
        (b"PK\x03\x04rest", "a.csv", ARCHIVE),
        (b"PK\x03\x04rest", "a.xls", ARCHIVE),
        (b"Name,ID\nA,1\n", "a.xlsx", "the file is not a whole workbook; save the list as a new .xlsx or as `CSV UTF-8`"),
    ],
)  # fmt: skip
def test_a_file_of_another_kind_is_told(data: bytes, file: str, told: str) -> None:
    with pytest.raises(TableFaulty) as faulty:
        rows(data, file)
    assert str(faulty.value) == f"{file}:1:1: {told}"
