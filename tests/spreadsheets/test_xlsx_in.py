"""XLSX as it came: what the sheet shows is what is read; a workbook that hides something is refused."""

from __future__ import annotations

import datetime
import io
import re
import warnings
import zipfile
from collections.abc import Callable, Sequence
from typing import Any

import openpyxl
import pytest
from openpyxl.chart import BarChart

from courseware.spreadsheets.rows import Row, TableFaulty
from courseware.spreadsheets.xlsx_in import MOST_BYTES, MOST_ENTRIES, MOST_ROWS, MOST_UNPACKED, read_workbook

SAVE = "save the list as a new .xlsx or as `CSV UTF-8`"
SHEET = "xl/worksheets/sheet1.xml"


def book(*rows: tuple[object, ...], change: Callable[[Any], object] = lambda _: None) -> bytes:
    """A workbook with these rows on its first sheet; `change` alters it before it is saved."""
    made = openpyxl.Workbook()
    for row in rows:
        made.active.append(row)
    change(made)
    made.save(data := io.BytesIO())
    return data.getvalue()


def rewritten(data: bytes, change: Callable[[str], str], piece: str = SHEET) -> bytes:
    """The workbook with one piece of it written otherwise."""
    with (
        zipfile.ZipFile(io.BytesIO(data)) as old,
        zipfile.ZipFile(out := io.BytesIO(), "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, change(content.decode()) if name == piece else content)
    return out.getvalue()


def packed(pieces: list[tuple[str, bytes]], packing: int = zipfile.ZIP_DEFLATED) -> bytes:
    with warnings.catch_warnings(), zipfile.ZipFile(out := io.BytesIO(), "w", packing) as new:
        warnings.simplefilter("ignore")  # of a piece that stands twice
        for name, content in pieces:
            new.writestr(name, content)
    return out.getvalue()


def wanted(headings: Sequence[str]) -> bool:
    return "Name" in headings


def read(data: bytes, *, merges: bool = False) -> tuple[list[Row], tuple[str, ...]]:
    rows, notes = read_workbook(data, "a.xlsx", wanted, merges=merges)
    return list(rows), notes


def cells(data: bytes) -> list[tuple[str, ...]]:
    return [row.cells for row in read(data)[0]]


def faults(data: bytes) -> list[str]:
    with pytest.raises(TableFaulty) as faulty:
        read(data)
    return [str(fault) for fault in faulty.value.faults]


@pytest.mark.parametrize(
    ("value", "places", "shown"),
    [
        ("007", "General", "007"),
        (7, "General", "7"),
        (7.0, "General", "7"),
        (7, "000", "007"),
        (1234567890, "0", "1234567890"),
        (7.5, "General", "7.5"),
        (True, "General", "TRUE"),
        (datetime.datetime(2026, 1, 5), "yyyy-mm-dd", "2026-01-05"),
        (" R-1 ", "General", " R-1 "),
        (0.05, "0%", "5 %"),
        (0.075, "0.0%", "7.5 %"),
        (0.07, "0.00%", "7 %"),
        (1, "0%", "100 %"),
        (10, "0%", "1000 %"),
        (0.05, '0.00"%"', "0.05"),
        (0.05, "0.00", "0.05"),
        (None, "General", ""),
    ],
)
def test_a_cell_is_read_as_the_sheet_shows_it(value: object, places: str, shown: str) -> None:
    def format_cell(made) -> None:
        made.active["B2"].number_format = places

    assert cells(book(("Name", "ID"), ("Zoë", value), change=format_cell)) == [("Name", "ID"), ("Zoë", shown)]


@pytest.mark.parametrize(
    ("change", "names"),
    [
        (lambda made: made.active.row_dimensions.__getitem__(3).__setattr__("hidden", True), ["A", "B", "C"]),  # hidden is not gone
        (lambda made: made.active.column_dimensions.__getitem__("A").__setattr__("hidden", True), ["A", "B", "C"]),
        (lambda made: made.active.insert_rows(1, 3), ["A", "B", "C"]),
        (lambda made: made.active.insert_rows(3, 2), ["A", "B", "C"]),
        (lambda made: made.active.__setitem__("F9", "a note beside the list"), ["A", "B", "C"]),
    ],
    ids=["hidden-row", "hidden-column", "blank-rows-above", "blank-rows-between", "note-beside"],
)  # fmt: skip
def test_the_shape_of_a_sheet_changes_nothing(change: Callable[[Any], object], names: list[str]) -> None:
    data = book(("Name", "ID"), ("A", 1), ("B", 2), ("C", 3), change=change)
    assert [row[0] for row in cells(data)] == ["Name", *names]


def test_the_first_sheet_with_the_wanted_headings_is_read() -> None:
    def more_sheets(made) -> None:
        made.active.title = "Cover"
        for title, state in (("Old", "hidden"), ("Group A", "visible"), ("Group B", "visible")):
            sheet = made.create_sheet(title)
            sheet.sheet_state = state
            sheet.append(("Name",))
            sheet.append((f"Learner of {title}",))

    rows, notes = read(book(("Our college",), change=more_sheets))
    assert [row.cells for row in rows] == [("Name",), ("Learner of Group A",)]
    assert notes == ("Only the sheet `Group A` was read, of 3 in the workbook.",)


def test_a_sheet_with_the_headings_and_nothing_below_them_is_read_only_where_there_is_no_other() -> None:
    def list_behind(made) -> None:
        made.create_sheet("List").append(("Name",))
        made["List"].append(("Amara Okafor",))

    assert cells(book(("Name", 1), change=list_behind)) == [("Name",), ("Amara Okafor",)]
    assert cells(book(("Name", 1), change=lambda made: made.create_sheet("Blank"))) == [("Name", "1")]


def test_where_no_sheet_has_the_headings_the_first_rows_of_the_first_are_given() -> None:
    assert cells(book(("Our college",), ("Amara Okafor",))) == [("Our college",)]


def with_result(data: bytes, shown: str) -> bytes:
    """The formulas of a workbook with a stored result, as a spreadsheet saves them."""
    return rewritten(data, lambda sheet: re.sub(r'<c r="(\w+)"><f>(.*?)</f><v>?(?:</v>|\s*/>)</c>', shown, sheet))


def test_a_formula_is_read_as_what_it_shows() -> None:
    data = book(("Name", "ID"), ('="Amara "&"Okafor"', 1))
    stored = with_result(data, r'<c r="\1" t="str"><f>\2</f><v>Amara Okafor</v></c>')
    assert stored != data
    assert cells(stored) == [("Name", "ID"), ("Amara Okafor", "1")]


def test_a_formula_without_a_result_is_told_by_its_cell() -> None:
    rows, _ = read(book(("Name", "ID"), ("Amara Okafor", 1), ('="Łukasz "&"Wójcik"', 2)))
    assert [row.unread for row in rows] == [{}, {}, {0: "holds a formula without a stored result"}]


def test_a_row_of_nothing_but_unread_formulas_is_not_passed_over() -> None:
    rows, _ = read(book(("Name", "ID"), ("=A1", "=B1")))
    assert [(row.line, sorted(row.unread)) for row in rows] == [(1, []), (2, [0, 1])]


def test_a_cell_that_shows_an_error_is_told() -> None:
    data = with_result(book(("Name", "ID"), ("=1/0", 1)), r'<c r="\1" t="e"><f>\2</f><v>#DIV/0!</v></c>')
    assert read(data)[0][1].unread == {0: "shows #DIV/0!"}


def test_a_workbook_with_nothing_in_it_has_no_rows() -> None:
    assert read(book()) == ([], ())


def merged(made) -> None:
    made.active.merge_cells("A2:A3")


def test_merges_are_told_only_where_they_are_asked_for() -> None:
    data = book(("Name", "ID"), ("A", 1), ("", 2), change=merged)
    assert [row.unread for row in read(data)[0]] == [{}, {}, {}]
    assert [row.unread for row in read(data, merges=True)[0]] == [
        {}, {}, {0: "is merged with A2; take the merge apart"},
    ]  # fmt: skip


GOOD = book(("Name", "ID"), ("A", 1))


def _chart_alone(made: Any) -> None:
    made.create_chartsheet("Chart").add_chart(BarChart())
    made.remove(made.worksheets[0])


REFUSED = {
    "charts-alone": (book(change=_chart_alone), f"the workbook shows charts alone, no sheet with rows; {SAVE}"),
    "no-zip": (b"Name,ID\nA,1\n", f"the file is not a whole workbook; {SAVE}"),
    "breaks-off": (GOOD[:-100], f"the file is not a whole workbook; {SAVE}"),
    "too-large": (b"PK\x03\x04" + b"0" * MOST_BYTES, f"the file has {MOST_BYTES + 4} bytes; expected at most {MOST_BYTES}"),
    "bomb": (packed([("xl/a.xml", b"0" * 5_000_000)]), f"the workbook swells to 5000000 bytes when it is unpacked; at most {MOST_UNPACKED}: {SAVE}"),
    "many-pieces": (packed([(f"{n}.xml", b"") for n in range(MOST_ENTRIES + 1)]), f"the workbook has 201 pieces; at most 200: {SAVE}"),
    "piece-twice": (packed([("a.xml", b"a"), ("a.xml", b"b")]), f"the workbook holds a piece twice; {SAVE}"),
    "strange-packing": (packed([("a.xml", b"a")], zipfile.ZIP_BZIP2), f"the workbook is packed in a way that no spreadsheet uses; {SAVE}"),
    "no-workbook": (packed([("a.txt", b"a")]), f"the workbook is damaged and cannot be read; {SAVE}"),
    "entities": (rewritten(GOOD, lambda sheet: sheet.replace("<worksheet", "<!DOCTYPE a [<!ENTITY b 'c'>]><worksheet", 1)), f"the workbook holds declarations that no spreadsheet writes; {SAVE}"),
    "utf-16-piece": (packed([("xl/a.xml", "<!DOCTYPE a>".encode("utf-16"))]), f"the workbook holds declarations that no spreadsheet writes; {SAVE}"),
    "broken-sheet": (rewritten(GOOD, lambda sheet: sheet[:-30]), f"the workbook is damaged and cannot be read; {SAVE}"),
    "far-below": (book(("Name",), ("A",), change=lambda made: made.active.cell(MOST_ROWS + 1, 1, "B")), f"the sheet goes on below row {MOST_ROWS}; delete what stands far below the list"),
}  # fmt: skip


@pytest.mark.parametrize(("data", "told"), REFUSED.values(), ids=REFUSED)
def test_a_workbook_not_fit_to_open_is_refused(data: bytes, told: str) -> None:
    assert faults(data) == [f"a.xlsx:1:1: {told}"]


def test_a_locked_workbook_is_told() -> None:
    data = bytearray(GOOD)
    for place in (found.start() for found in re.finditer(rb"PK\x01\x02", GOOD)):
        data[place + 8] |= 1  # the flag of an encrypted entry
    assert faults(bytes(data)) == ["a.xlsx:1:1: the workbook is locked with a password; take the password off"]


@pytest.mark.parametrize("claimed", ["A1:A1", "A1:XFD1048576", "C7:D9"])
def test_a_sheet_that_lies_about_its_size_is_read_all_the_same(claimed: str) -> None:
    data = rewritten(GOOD, lambda sheet: re.sub(r'<dimension ref="[^"]*"', f'<dimension ref="{claimed}"', sheet))
    assert cells(data) == [("Name", "ID"), ("A", "1")]
