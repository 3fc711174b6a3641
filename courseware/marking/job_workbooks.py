"""A job's workbooks: the stores' order, and the observation sheet that reckons pass or fail as figures are typed."""

from __future__ import annotations

from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING

from courseware.jobs.plan import Plan
from courseware.jobs.sheets import order_rows
from courseware.marking.marking_sheet import dated

if TYPE_CHECKING:
    from openpyxl import Workbook


def stores_workbook(plan: Plan, date: str) -> bytes:
    """The workbook: one line an item, for one bay and for the class. The same plan and date give the same bytes."""
    from openpyxl import Workbook
    from openpyxl.styles import Font

    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = "Order"
    sheet.append(["item", "one bay", f"{plan.task.shape.bays} bays", "unit"])
    for what, one, for_class, unit in order_rows(plan):
        sheet.append([what.strip(), float(one) if one else None, float(for_class), unit])
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for column, width in (("A", 52), ("B", 12), ("C", 12), ("D", 10)):
        sheet.column_dimensions[column].width = width
    return _saved(book, date)


def observation_workbook(plan: Plan, date: str) -> bytes:
    """The measured lines with a cell for each figure; the last column says pass or fail once it is typed."""
    from openpyxl import Workbook
    from openpyxl.styles import Font

    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = "Measured"
    sheet.append(["line", "target, mm", "allowed, ± mm", "measured, mm", "pass or fail"])
    for row, line in enumerate(plan.lines, 2):
        verdict = f'=IF(ISNUMBER(D{row}),IF(ABS(D{row}-B{row})<=C{row},"pass","fail"),"")'
        sheet.append([line.what, float(line.target), float(line.allowed), None, verdict])
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for column, width in (("A", 44), ("B", 14), ("C", 14), ("D", 14), ("E", 14)):
        sheet.column_dimensions[column].width = width
    profile = plan.task.profile
    sheet.append([])
    sheet.append([f"Tolerances: {profile.name} ({profile.source})"])
    return _saved(book, date)


def _saved(book: Workbook, date: str) -> bytes:
    book.properties.created = datetime.fromisoformat(date)
    written = BytesIO()
    book.save(written)
    return dated(written, date)
