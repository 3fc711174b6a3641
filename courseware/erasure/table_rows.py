"""A learner's rows taken out of a table that was filled in: every other row keeps what was typed into it.

A row goes where one of its cells is the learner's code or name. Where a cell of another row names the learner among
other words, those words alone are taken out. Formulas stay, but show nothing until a spreadsheet has worked them out.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
import warnings
from collections.abc import Iterator
from typing import TYPE_CHECKING

from courseware.database.learner_lookup import Papers
from courseware.database.learners import REDACTED, owning, telling

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

_MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


class Unreadable(ValueError):
    """A table that cannot be read, so that nobody can say whether it names the learner."""


def without_in_workbook(data: bytes, papers: Papers) -> bytes | None:
    """The workbook without the learner; None where it names nobody of the kind. Raises `Unreadable`."""
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extensions, which say nothing of the cells
            book = load_workbook(io.BytesIO(data))
    except Exception:  # a damaged workbook fails inside the reader in ways that cannot be listed
        raise Unreadable from None
    if not sum([_clean_sheet(sheet, owning(papers), telling(papers)) for sheet in book.worksheets]):
        return None
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def without_in_csv(data: bytes, papers: Papers) -> bytes | None:
    """The same for a CSV file, in its own encoding, separators and line ends."""
    encoding = next((name for mark, name in _MARKS if data.startswith(mark)), "utf-8")
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        encoding = "cp1252"
        text = data.decode(encoding, "surrogateescape")
    own, named = owning(papers), telling(papers)
    clean = "".join(named.sub(REDACTED, row) for row in _rows(text) if not _is_of(row, own))
    return None if clean == text else clean.encode(encoding, "surrogateescape")


def _clean_sheet(sheet: Worksheet, own: re.Pattern[str], named: re.Pattern[str]) -> int:
    """Takes the learner out of a sheet; returns how many cells and rows that changed."""
    changed = 0
    for row in range(sheet.max_row, 0, -1):
        texts = [cell for cell in sheet[row] if isinstance(cell.value, str)]
        if any(own.fullmatch(str(cell.value).strip()) for cell in texts):
            sheet.delete_rows(row)
            changed += 1
            continue
        for cell in texts:
            if named.search(str(cell.value)):
                kind = cell.data_type
                cell.value = named.sub(REDACTED, str(cell.value))
                cell.data_type = kind
                changed += 1
    return changed


def _rows(text: str) -> Iterator[str]:
    """The rows of a CSV text with their line ends; a quoted cell may run over several lines."""
    row = ""
    for line in text.splitlines(keepends=True):
        row += line
        if row.count('"') % 2 == 0:
            yield row
            row = ""
    if row:
        raise Unreadable  # a quote that never ends: whose row this is nobody can say


def _is_of(row: str, own: re.Pattern[str]) -> bool:
    try:
        cells = [
            cell for mark in ",;\t|" for cell in next(csv.reader(io.StringIO(row, newline=""), delimiter=mark), [])
        ]
    except csv.Error:
        raise Unreadable from None
    return any(own.fullmatch(cell.strip()) for cell in cells)
