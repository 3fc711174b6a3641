"""A table that somebody gives: CSV or XLSX, told apart by how the file begins and is called."""

from __future__ import annotations

from collections.abc import Iterator

from courseware.spreadsheets.csv_in import read_csv
from courseware.spreadsheets.rows import Row, TableFaulty, Wanted
from courseware.spreadsheets.xlsx_in import read_workbook
from courseware.text_files.faults import Fault

_ZIP, _OLE = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"


def read_table(
    data: bytes, file: str, wanted: Wanted, *, merges: bool = False
) -> tuple[Iterator[Row], tuple[str, ...]]:
    """The rows of a CSV or XLSX file, headings first, and notes for the tutor. Raises `TableFaulty`."""
    if data.startswith(_OLE):
        wrong = "this is an old .xls workbook, or one locked with a password"
        raise TableFaulty((Fault(file, 1, 1, wrong, "save it without a password as .xlsx or as `CSV UTF-8`"),))
    if file.lower().endswith((".xlsx", ".xlsm")):
        return read_workbook(data, file, wanted, merges=merges)
    if data.startswith(_ZIP):
        wrong = "this is a workbook or a ZIP archive, not a CSV list"
        advice = "give a workbook a name that ends in .xlsx, or save it as `CSV UTF-8`"
        raise TableFaulty((Fault(file, 1, 1, wrong, advice),))
    return read_csv(data, file, wanted)
