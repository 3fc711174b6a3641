"""A sheet of marks filled in by hand."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import openpyxl


def fill(
    sheet: Path, to: str, marks: Mapping[tuple[str, str], int] | None = None, outcome: Mapping[str, str] | None = None
) -> Path:
    """The sheet with what each part is worth as its mark, but for those given otherwise by script and part."""
    book = openpyxl.load_workbook(sheet)
    for row in book["Marks"].iter_rows(min_row=2):
        row[8].value = (marks or {}).get((row[0].value, row[2].value), row[7].value)
    for row in book["Outcome"].iter_rows(min_row=2) if outcome else ():
        row[1].value = outcome[row[0].value]
    book.save(to)
    return Path(to)


def filled_in(plan: Path) -> str:
    """Fills in the first row of a sample's workbook: not agreed, with an action. Returns the paper's code."""
    book = openpyxl.load_workbook(plan)
    sheet = book["Sample"]
    columns = {cell.value: cell.column for cell in sheet[1]}
    for heading, text in {"agreed": "no", "action": "Mark 1a again", "by": "A. Quinn", "date": "2026-02-01"}.items():
        sheet.cell(2, columns[heading], text)
    book.save(plan)
    return str(sheet.cell(2, columns["paper"]).value)
