"""A workbook of finished tables: what looks like a formula is shown as text, real numbers stay numbers."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING, TypeAlias
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell, MergedCell
    from openpyxl.worksheet.worksheet import Worksheet

Value: TypeAlias = str | int | float | None
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")  # openpyxl dates it on saving
_LONGEST = 32_000  # characters: a spreadsheet's cell holds 32,767


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One sheet of the workbook: its title, its columns with their widths, its rows; wide texts are wrapped.

    `freeze` is the first cell that scrolls; `spare` so many rows of text cells stand below the last, to type into.
    """

    title: str
    columns: Mapping[str, int]
    rows: Sequence[Sequence[Value]]
    freeze: str = "A2"
    spare: int = 0


def safe_workbook(pages: Sequence[Page], day: str) -> bytes:
    """The workbook, dated `day` (ISO 8601): the same pages and day give the same bytes."""
    from openpyxl import Workbook

    book = Workbook()
    sheets = [book.worksheets[0], *(book.create_sheet() for _ in pages[1:])]
    for sheet, page in zip(sheets, pages, strict=True):
        _fill(sheet, page)
    book.properties.created = datetime.fromisoformat(day)
    written = BytesIO()
    book.save(written)
    return dated(written, day)


def dated(written: BytesIO, day: str) -> bytes:
    """The workbook with the sitting's date for its own, so that the same sitting gives the same bytes."""
    plain = BytesIO()
    with ZipFile(written) as found, ZipFile(plain, "w") as made:
        for name in found.namelist():
            content = found.read(name)
            if name == "docProps/core.xml":
                content = _MODIFIED.sub(rf"\g<1>{day}T00:00:00Z\g<2>".encode(), content)
            made.writestr(ZipInfo(name), content, ZIP_DEFLATED)
    return plain.getvalue()


def _fill(sheet: Worksheet, page: Page) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    sheet.title = page.title
    sheet.freeze_panes = page.freeze
    blank = ("",) * len(page.columns)
    for row, values in enumerate((tuple(page.columns), *page.rows, *(blank,) * page.spare), 1):
        for column, value in enumerate(values, 1):
            cell = sheet.cell(row, column)
            put(cell, value)
            cell.alignment = Alignment(wrap_text=True, vertical="top")
    for column, width in enumerate(page.columns.values(), 1):
        sheet.cell(1, column).font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(column)].width = width


def put(cell: Cell | MergedCell, value: Value) -> None:
    """Puts a value into a cell: a text as text, whatever it begins with."""
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE, Cell

    if not isinstance(cell, Cell):
        return
    if not isinstance(value, str):
        cell.value = value
        return
    cell.number_format = "@"
    if value:
        cell.value = ILLEGAL_CHARACTERS_RE.sub("�", value[:_LONGEST].encode("utf-8", "replace").decode())
        cell.data_type = "s"
        cell.quotePrefix = value.startswith(_FORMULA_STARTS)
