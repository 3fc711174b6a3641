"""Rows put into a workbook that people have typed into."""

from __future__ import annotations

from io import BytesIO

from openpyxl import Workbook, load_workbook

from courseware.spreadsheets.xlsx_rows import with_rows

DAY = "2026-01-05"


def workbook(*rows: tuple[str, ...], title: str = "") -> bytes:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in ([(title,)] if title else []) + list(rows):
        sheet.append(row)
    written = BytesIO()
    book.save(written)
    return written.getvalue()


def rows(data: bytes | None) -> list[tuple[object, ...]]:
    assert data is not None
    sheet = load_workbook(BytesIO(data)).active
    assert sheet is not None
    return [tuple(cell or "" for cell in row) for row in sheet.iter_rows(values_only=True)]


SHEET = workbook(("Code", "Name", "1a"), ("K1", "Amara", "910"), ("K2", "Zoe", "=1+1"))


def test_a_new_row_stands_after_the_last_and_what_was_typed_stays() -> None:
    found = rows(with_rows(SHEET, "code", {"K3": {"name": "Kofi"}}, DAY))
    assert found == [("Code", "Name", "1a"), ("K1", "Amara", "910"), ("K2", "Zoe", "=1+1"), ("K3", "Kofi", "")]


def test_a_row_that_is_there_has_its_cells_put_right_and_no_others() -> None:
    found = rows(with_rows(SHEET, "code", {"K1": {"name": "Amira", "reference": "7"}}, DAY))
    assert found[1] == ("K1", "Amira", "910")


def test_headings_below_a_title_are_found_and_empty_rows_are_used() -> None:
    data = workbook(("code", "name"), ("K1", "Amara"), ("", ""), ("", ""), title="Marking sheet")
    assert rows(with_rows(data, "code", {"K9": {"name": "Bea"}}, DAY))[3] == ("K9", "Bea")


def test_a_name_like_a_formula_is_text() -> None:
    made = with_rows(SHEET, "code", {"K3": {"name": "=cmd()"}}, DAY)
    assert made is not None
    sheet = load_workbook(BytesIO(made)).active
    assert sheet is not None
    assert (sheet["B4"].value, sheet["B4"].data_type) == ("=cmd()", "s")


def test_a_workbook_without_the_heading_or_damaged_is_left_alone() -> None:
    assert with_rows(workbook(("a", "b")), "code", {"K1": {}}, DAY) is None
    assert with_rows(b"no workbook", "code", {"K1": {}}, DAY) is None


def test_the_same_rows_give_the_same_bytes() -> None:
    assert with_rows(SHEET, "code", {"K3": {}}, DAY) == with_rows(SHEET, "code", {"K3": {}}, DAY)
