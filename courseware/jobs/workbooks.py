"""A job's workbooks: the stores' order, and the observation sheet that works out pass or fail as figures are typed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from io import BytesIO
from typing import TypeAlias

from courseware.jobs.order import order_rows
from courseware.jobs.plan import Plan, counted
from courseware.spreadsheets.xlsx_out import dated

Cell: TypeAlias = str | float | None


def stores_workbook(plan: Plan, date: str) -> bytes:
    """The workbook: one line an item, for one bay and for the class. The same plan and date give the same bytes."""
    headings = {"item": 52, "one bay": 12, counted(plan.task.shape.bays, "bay"): 12, "unit": 10}
    rows = [
        [what.strip(), float(one) if one else None, float(for_class), unit]
        for what, one, for_class, unit in order_rows(plan)
    ]
    return _workbook("Order", headings, rows, date)


def observation_workbook(plan: Plan, date: str) -> bytes:
    """The measured lines with a cell for each figure; the last column says pass or fail once it is typed."""
    headings = {"line": 44, "target, mm": 14, "allowed, ± mm": 14, "measured, mm": 14, "pass or fail": 14}
    rows: list[list[Cell]] = [
        [
            line.what, float(line.target), float(line.allowed), None,
            f'=IF(ISNUMBER(D{row}),IF(ABS(D{row}-B{row})<=C{row},"pass","fail"),"")',
        ]
        for row, line in enumerate(plan.lines, 2)
    ]  # fmt: skip
    profile = plan.task.profile
    rows += [[], [f"Tolerances: {profile.name} ({profile.source})"]]
    return _workbook("Measured", headings, rows, date)


def _workbook(title: str, headings: Mapping[str, int], rows: Iterable[Iterable[Cell]], date: str) -> bytes:
    """One sheet: headings with the widths of their columns, then the rows."""
    from openpyxl import Workbook
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = title
    for row in (headings, *rows):
        sheet.append(list(row))
    for column, (cell, width) in enumerate(zip(sheet[1], headings.values(), strict=True), 1):
        cell.font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(column)].width = width
    book.properties.created = datetime.fromisoformat(date)
    written = BytesIO()
    book.save(written)
    return dated(written, date)
