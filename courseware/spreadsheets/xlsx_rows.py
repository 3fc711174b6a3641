"""Rows put into a workbook that people have typed into: theirs stay as they are."""

from __future__ import annotations

import warnings
from collections.abc import Mapping
from io import BytesIO
from typing import TYPE_CHECKING

from courseware.spreadsheets.rows import TITLES_WITHIN, heading_key
from courseware.spreadsheets.xlsx_out import dated, put

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet


def with_rows(data: bytes, key: str, rows: Mapping[str, Mapping[str, str]], day: str) -> bytes | None:
    """The workbook, dated `day`, with each of `rows`, known by what stands under the heading `key`.

    The cells named (by heading) are put right in a row that is there already; any other is added after the last that
    has a key. The sheet is the first with such a heading. None where there is none, or the file cannot be read.
    """
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extensions, which say nothing of the cells
            book = load_workbook(BytesIO(data))
    except Exception:  # a damaged workbook fails inside the reader in ways that cannot be listed
        return None
    found = _sheet(book, key)
    if found is None:
        return None
    sheet, top, columns = found
    places = {
        str(value): row
        for row in range(top + 1, sheet.max_row + 1)
        if (value := sheet.cell(row, columns[key]).value) not in (None, "")
    }
    last = max(places.values(), default=top)
    for own, cells in rows.items():
        if own not in places:
            last += 1
            places[own] = last
        for heading, text in {key: own, **cells}.items():
            if heading in columns:
                cell = sheet.cell(places[own], columns[heading])
                cell.value = None
                put(cell, text)
    written = BytesIO()
    book.save(written)
    return dated(written, day)


def _sheet(book: Workbook, key: str) -> tuple[Worksheet, int, dict[str, int]] | None:
    """The first sheet with a heading `key`, the row of its headings and their columns."""
    for sheet in book.worksheets:
        for row in range(1, min(sheet.max_row, TITLES_WITHIN) + 1):
            columns = {heading_key(str(cell.value)): int(cell.column) for cell in sheet[row] if cell.value}
            if key in columns:
                return sheet, row, columns
    return None
