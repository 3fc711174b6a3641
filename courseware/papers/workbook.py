"""XLSX class lists: a workbook weighed before it is opened, and the rows of its first sheet with headings."""

from __future__ import annotations

import datetime
import io
import re
import warnings
import zipfile
from collections.abc import Iterator, Sequence
from typing import Any

from courseware.banks.faults import Fault
from courseware.papers.table import ClassListFaulty, Row, find_columns

MOST_BYTES = 5_000_000
MOST_ENTRIES = 200
MOST_UNPACKED = 6_000_000
MOST_RATIO = 100  # how far an entry may swell; sheets of repeated cells reach about 30
MOST_ROWS = 1_048_576  # of a sheet, by its format
MOST_COLUMNS = 100
_RE_SAVE = "save the list as a new .xlsx or as `CSV UTF-8`"


def read_workbook(data: bytes, file: str) -> tuple[Iterator[Row], tuple[str, ...]]:
    """The rows that are not blank, headings first, and notes for the tutor. Raises `ClassListFaulty`."""
    has_formulas = _weigh(data, file)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extensions, which say nothing of the cells
            sheets = _sheets(data)
            named, rows = _first_with_headings(sheets)
            if has_formulas and rows:
                rows = _without_unstored(rows, _sheets(data, formulas=True, only=named)[0][1])
    except ClassListFaulty:
        raise
    except Exception:  # a damaged workbook fails inside the reader in ways that cannot be listed
        raise _refusal(file, "the workbook is damaged and cannot be read", _RE_SAVE) from None
    others = [name for name, found in sheets if name != named and found]
    note = f"Only the sheet `{named}` was read; the workbook has {len(others)} more with something in them."
    return iter(_squared(rows)), ((note,) if others else ())


def _weigh(data: bytes, file: str) -> bool:
    """Whether any sheet has formulas. Raises `ClassListFaulty` for a workbook not fit to be opened."""
    if len(data) > MOST_BYTES:
        raise _refusal(file, f"the file has {len(data)} bytes", f"expected at most {MOST_BYTES}")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            _weigh_entries(entries, file)
            return _look_through(archive, entries, file)
    except (zipfile.BadZipFile, zipfile.LargeZipFile, NotImplementedError, RuntimeError, OSError, EOFError,
            ValueError, zipfile.zlib.error):  # fmt: skip
        raise _refusal(file, "the file is not a whole workbook", _RE_SAVE) from None


def _weigh_entries(entries: Sequence[zipfile.ZipInfo], file: str) -> None:
    if len(entries) > MOST_ENTRIES:
        raise _refusal(file, f"the workbook has {len(entries)} pieces", f"at most {MOST_ENTRIES}: {_RE_SAVE}")
    if len({entry.filename for entry in entries}) < len(entries):
        raise _refusal(file, "the workbook holds a piece twice", _RE_SAVE)
    if any(entry.flag_bits & 1 for entry in entries):
        raise _refusal(file, "the workbook is locked with a password", "take the password off")
    unpacked = sum(entry.file_size for entry in entries)
    swells = any(
        entry.file_size > 100_000 and entry.file_size > MOST_RATIO * max(entry.compress_size, 1) for entry in entries
    )
    if unpacked > MOST_UNPACKED or swells:
        wrong = f"the workbook swells to {unpacked} bytes when it is unpacked"
        raise _refusal(file, wrong, f"at most {MOST_UNPACKED}: {_RE_SAVE}")


def _look_through(archive: zipfile.ZipFile, entries: Sequence[zipfile.ZipInfo], file: str) -> bool:
    formulas = False
    for entry in entries:
        if not entry.filename.lower().endswith((".xml", ".rels", ".vml")):
            continue
        content = archive.read(entry)
        if b"\0" in content[:400] or b"<!DOCTYPE" in content or b"<!ENTITY" in content:
            raise _refusal(file, "the workbook holds declarations that no spreadsheet writes", _RE_SAVE)
        formulas = formulas or re.search(rb"<(?:\w{1,20}:)?f[ >/]", content) is not None
    return formulas


Rows = list[Row]


def _sheets(data: bytes, *, formulas: bool = False, only: str | None = None) -> list[tuple[str, Rows]]:
    """The visible sheets by name, each with its rows that are not blank."""
    from openpyxl import load_workbook  # slow to import, and most lists are CSV

    book = load_workbook(io.BytesIO(data), read_only=True, data_only=not formulas, keep_links=False)
    try:
        found = []
        for sheet in book.worksheets:
            if sheet.sheet_state == "visible" and only in (None, sheet.title):
                sheet.reset_dimensions()
                found.append((sheet.title, list(_rows(sheet))))
        return found
    finally:
        book.close()


def _rows(sheet: Any) -> Iterator[Row]:
    for line, cells in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS), 1):
        if line > MOST_ROWS:
            return
        texts = tuple(_shown(cell) for cell in cells)
        if any(map(str.strip, texts)):
            errors = {i: text for i, text in enumerate(texts) if getattr(cells[i], "data_type", "") == "e"}
            yield Row(line=line, cells=texts, unread={i: f"shows {text}" for i, text in errors.items()})


def _shown(cell: Any) -> str:
    """A cell's text as its sheet shows it: 7 without .0, and 007 where its number format says 000."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, int | float) and value == int(value):
        places = str(getattr(cell, "number_format", ""))
        digits = str(int(value))
        return digits.zfill(len(places)) if re.fullmatch(r"0{1,20}", places) else digits
    if isinstance(value, datetime.datetime):
        return value.date().isoformat()
    return str(value)


def _first_with_headings(sheets: list[tuple[str, Rows]]) -> tuple[str, Rows]:
    filled = [(name, rows) for name, rows in sheets if rows]
    known = [(name, rows) for name, rows in filled if find_columns(rows[0].cells)]
    return next(iter(known or filled), ("", []))


def _without_unstored(rows: Rows, written: Rows) -> Rows:
    """The rows, told of the cells whose formula has no stored result."""
    formulas = {row.line: row.cells for row in written}
    lost = {
        line: {i: "holds a formula without a stored result" for i, text in enumerate(cells) if text[:1] == "="}
        for line, cells in formulas.items()
    }
    shown = {row.line: row for row in rows}
    whole = []
    for line in sorted({*shown, *(line for line in lost if lost[line])}):
        row = shown.get(line, Row(line=line, cells=()))
        bare = {i: why for i, why in lost.get(line, {}).items() if not "".join(row.cells[i : i + 1])}
        whole.append(Row(line=line, cells=row.cells, unread={**row.unread, **bare}))
    return whole


def _squared(rows: Rows) -> Rows:
    """Every row as wide as the headings: a sheet leaves out cells at the right, and notes may stand beside it."""
    if not rows:
        return rows
    width = max((i for i, text in enumerate(rows[0].cells, 1) if text.strip()), default=0)
    return [
        Row(line=row.line, cells=(*row.cells, *[""] * width)[:width], unread=row.unread)
        for row in rows
        if any(map(str.strip, row.cells[:width])) or any(column < width for column in row.unread)
    ]


def _refusal(file: str, wrong: str, expected: str) -> ClassListFaulty:
    return ClassListFaulty((Fault(file, 1, 1, wrong, expected),))
