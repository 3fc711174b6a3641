"""Workbooks out, read back: text is never live, numbers are numbers, the same pages and day give the same bytes."""

from __future__ import annotations

import io
import zipfile
from datetime import datetime

import pytest
from openpyxl import load_workbook
from openpyxl.workbook import Workbook

from courseware.spreadsheets.xlsx_out import Page, safe_workbook

DAY = "2026-01-05"


def book(*rows: tuple[object, ...], **more: object) -> Workbook:
    page = Page(title="Answers", columns={"Name": 30, "Mark": 8}, rows=rows, **more)  # type: ignore[arg-type]
    return load_workbook(io.BytesIO(safe_workbook([page], DAY)))


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "＝1", "＋1", "－1", "＠x", "=cmd|'/C calc'!A0"]
)
def test_what_looks_like_a_formula_is_text_and_marked_as_such(text: str) -> None:
    cell = book((text, 1))["Answers"]["A2"]
    assert (cell.value, cell.data_type, cell.number_format, cell.quotePrefix) == (text, "s", "@", True)


@pytest.mark.parametrize("text", ["007", "1.50", "12-13", "9:30", "TRUE", "Amara Okafor", "1=1"])
def test_other_text_stays_as_it_is_without_a_mark(text: str) -> None:
    cell = book((text, 1))["Answers"]["A2"]
    assert (cell.value, cell.data_type, cell.number_format, cell.quotePrefix) == (text, "s", "@", False)


def test_numbers_are_numbers_and_nothing_is_an_empty_cell() -> None:
    sheet = book((1360, 2.5), (None, ""))["Answers"]
    assert [(cell.value, cell.data_type) for cell in sheet[2]] == [(1360, "n"), (2.5, "n")]
    assert [cell.value for cell in sheet[3]] == [None, None]


def test_characters_that_no_sheet_can_hold_are_replaced_and_very_long_text_is_cut() -> None:
    sheet = book(("a\x00b\x1bc", "\ud800"), ("x" * 32_000, "x" * 32_001))["Answers"]
    assert [cell.value for cell in sheet[2]] == ["a�b�c", "?"]
    assert [len(cell.value) for cell in sheet[3]] == [32_000, 32_000]


def test_a_page_has_its_headings_widths_frozen_rows_and_room_to_type() -> None:
    sheet = book(("Amara", 3), freeze="B2", spare=2)["Answers"]
    assert [(cell.value, cell.font.bold) for cell in sheet[1]] == [("Name", True), ("Mark", True)]
    assert [sheet.column_dimensions[column].width for column in "AB"] == [30, 8]
    assert sheet.freeze_panes == "B2"
    assert [cell.number_format for cell in sheet[4]] == ["@", "@"]  # what is typed there stays as typed
    assert sheet["A5"].number_format == "General"
    assert all(cell.alignment.wrap_text for row in sheet["A1:B4"] for cell in row)


def test_several_pages_in_their_order() -> None:
    pages = [Page(title=title, columns={"a": 5}, rows=[(title,)]) for title in ("One", "Two", "Three")]
    made = load_workbook(io.BytesIO(safe_workbook(pages, DAY)))
    assert [(sheet.title, sheet["A2"].value) for sheet in made] == [(title, title) for title in ("One", "Two", "Three")]


def test_the_same_pages_and_day_give_the_same_bytes() -> None:
    page = Page(title="Answers", columns={"Name": 30}, rows=[("Amara",)])
    first = safe_workbook([page], DAY)
    assert safe_workbook([page], DAY) == first
    assert safe_workbook([page], "2026-01-06") != first
    made = load_workbook(io.BytesIO(first)).properties
    assert made.created == made.modified == datetime(2026, 1, 5)
    assert {entry.date_time[:3] for entry in zipfile.ZipFile(io.BytesIO(first)).infolist()} == {(1980, 1, 1)}
