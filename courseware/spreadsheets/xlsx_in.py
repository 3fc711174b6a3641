"""XLSX as it came: a workbook weighed before it is opened, and the rows of its first sheet with headings."""

from __future__ import annotations

import datetime
import io
import re
import warnings
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from decimal import Decimal
from itertools import islice
from typing import Any

from courseware.spreadsheets.merged_cells import with_merges
from courseware.spreadsheets.rows import TITLES_WITHIN, Row, TableFaulty, Wanted, headings_at
from courseware.text_files.faults import Fault, harmless

MOST_BYTES = 5_000_000
MOST_ENTRIES = 200
MOST_UNPACKED = 6_000_000
MOST_RATIO = 100  # how far an entry may swell; sheets of repeated cells reach about 30
MOST_ROWS = 20_000  # counted to the last row with anything in it
HEADINGS_WITHIN = 100  # rows, on each sheet
MOST_COLUMNS = 500  # a marking sheet has one for each part
Rows = list[Row]
_RE_SAVE = "save the list as a new .xlsx or as `CSV UTF-8`"


def read_workbook(data: bytes, file: str, wanted: Wanted, *, merges: bool) -> tuple[Iterator[Row], tuple[str, ...]]:
    """The rows that are not blank, headings first, and notes for the tutor. Raises `TableFaulty`.

    `merges`: whether cells under a merge are told as such; in a list of names a merged cell hides nothing.
    The sheet read is the first whose headings are `wanted`; where there is none, the first one's headings alone.
    """
    has_formulas = _weigh(data, file)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extensions, which say nothing of the cells
            name, rows, others = _shown_rows(data, file, wanted, merges=merges)
            if has_formulas and rows:
                rows = _without_unstored(rows, _formulas(data, name))
    except TableFaulty:
        raise
    except Exception:  # a damaged workbook fails inside the reader in ways that cannot be listed
        raise _refusal(file, "the workbook is damaged and cannot be read", _RE_SAVE) from None
    note = f"Only the sheet `{harmless(name)}` was read, of {others + 1} in the workbook."
    return iter(_squared(rows)), ((note,) if others else ())


def _weigh(data: bytes, file: str) -> bool:
    """Whether any sheet has formulas. Raises `TableFaulty` for a workbook not fit to be opened."""
    if len(data) > MOST_BYTES:
        raise _refusal(file, f"the file has {len(data)} bytes", f"expected at most {MOST_BYTES}")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            _weigh_entries(entries, file)
            return _look_through(archive, entries, file)
    except TableFaulty:
        raise
    except Exception:  # so does an archive that breaks off or was tampered with
        raise _refusal(file, "the file is not a whole workbook", _RE_SAVE) from None


def _weigh_entries(entries: Sequence[zipfile.ZipInfo], file: str) -> None:
    if len(entries) > MOST_ENTRIES:
        raise _refusal(file, f"the workbook has {len(entries)} pieces", f"at most {MOST_ENTRIES}: {_RE_SAVE}")
    if len({entry.filename for entry in entries}) < len(entries):
        raise _refusal(file, "the workbook holds a piece twice", _RE_SAVE)
    if any(entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED) for entry in entries):
        raise _refusal(file, "the workbook is packed in a way that no spreadsheet uses", _RE_SAVE)
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


@contextmanager
def _visible_sheets(data: bytes, *, formulas: bool) -> Iterator[list[Any]]:
    """The sheets that are not hidden, with what formulas show, or with the formulas themselves."""
    from openpyxl import load_workbook  # slow to import, and most lists are CSV

    book = load_workbook(io.BytesIO(data), read_only=True, data_only=not formulas, keep_links=False)
    try:
        sheets = [sheet for sheet in book.worksheets if sheet.sheet_state == "visible"]
        for sheet in sheets:
            sheet.reset_dimensions()  # a sheet may say that it is larger or smaller than it is
        yield sheets
    finally:
        book.close()


def _shown_rows(data: bytes, file: str, wanted: Wanted, *, merges: bool) -> tuple[str, Rows, int]:
    """Name and rows of the first sheet that has the wanted headings and a row below them; how many others there are.

    Where no sheet has both, it is the first with the headings: `Learners: 3` on a sheet of its own is no list.
    """
    with _visible_sheets(data, formulas=False) as sheets:
        if not sheets:
            raise _refusal(file, "the workbook shows charts alone, no sheet with rows", _RE_SAVE)
        first: tuple[str, Rows] | None = None
        headed: tuple[str, Rows] | None = None
        for sheet in sheets:
            top = list(islice(_rows(sheet, HEADINGS_WITHIN), TITLES_WITHIN))
            above = headings_at([row.cells for row in top], wanted)
            if top and wanted(top[above].cells):
                rows = _all_rows(sheet, file)[above:]
                if merges:
                    rows = with_merges(rows, _xml_of(sheet), file)
                if len(rows) > 1:
                    return sheet.title, rows, len(sheets) - 1
                headed = headed or (sheet.title, rows)
            if top and not first:
                first = (sheet.title, top[:1])
        name, rows = headed or first or ("", [])
        return name, rows, len(sheets) - 1


def _all_rows(sheet: Any, file: str) -> Rows:
    rows = list(_rows(sheet, MOST_ROWS + 1))
    if rows and rows[-1].line > MOST_ROWS:
        wrong = f"the sheet goes on below row {MOST_ROWS}"
        raise _refusal(file, wrong, "delete what stands far below the list")
    return rows


def _rows(sheet: Any, most: int) -> Iterator[Row]:
    """The rows that are not blank among the first `most`."""
    for line, cells in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS), 1):
        if any(cell.value is not None for cell in cells):
            texts = tuple(_shown(cell) for cell in cells)
            errors = {i: f"shows {cell.value}" for i, cell in enumerate(cells) if cell.data_type == "e"}
            if any(map(str.strip, texts)):
                yield Row(line=line, cells=texts, unread=errors)
        if line >= most:
            return


def _xml_of(sheet: Any) -> bytes:
    with sheet._get_source() as source:  # a sheet read row by row says nothing else of its merged cells
        return bytes(source.read())


def _formulas(data: bytes, name: str) -> dict[int, list[int]]:
    """Where formulas stand on a sheet: row from 1, columns from 0."""
    with _visible_sheets(data, formulas=True) as sheets:
        sheet = next(sheet for sheet in sheets if sheet.title == name)
        lines = zip(range(1, MOST_ROWS + 1), sheet.iter_rows(max_col=MOST_COLUMNS), strict=False)
        found = ((line, [i for i, cell in enumerate(cells) if cell.data_type == "f"]) for line, cells in lines)
        return {line: columns for line, columns in found if columns}


def _shown(cell: Any) -> str:
    """A cell's text as its sheet shows it: 7 without .0, 007 where its number format says 000, 5 % where it says 0%."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, int | float) and "%" in re.sub(
        r'"[^"]*"|\\.|\[[^]]*\]', "", str(getattr(cell, "number_format", ""))
    ):
        return f"{(Decimal(str(value)) * 100).normalize():f} %"
    if isinstance(value, int | float) and value == int(value):
        places = str(getattr(cell, "number_format", ""))
        digits = str(int(value))
        return digits.zfill(len(places)) if re.fullmatch(r"0{1,20}", places) else digits
    if isinstance(value, datetime.datetime):
        return value.date().isoformat()
    return str(value)


def _without_unstored(rows: Rows, formulas: Mapping[int, Sequence[int]]) -> Rows:
    """The rows, told of the cells whose formula has no stored result."""
    by_line = {row.line: row for row in rows}
    for line, columns in formulas.items():
        row = by_line.get(line, Row(line=line, cells=()))
        bare = {i: "holds a formula without a stored result" for i in columns if not "".join(row.cells[i : i + 1])}
        if bare:
            by_line[line] = Row(line=line, cells=row.cells, unread={**row.unread, **bare})
    return [by_line[line] for line in sorted(by_line)]


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


def _refusal(file: str, wrong: str, expected: str) -> TableFaulty:
    return TableFaulty((Fault(file, 1, 1, wrong, expected),))
