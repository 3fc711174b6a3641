"""The stores' order of a job as a workbook: figures as figures, so that the stores can add to them."""

from __future__ import annotations

from datetime import datetime
from io import BytesIO

from courseware.jobs.plan import Plan
from courseware.jobs.sheets import order_rows
from courseware.marking.marking_sheet import dated


def stores_workbook(plan: Plan, date: str) -> bytes:
    """The workbook: one line an item, for one bay and for the class. The same plan and date give the same bytes."""
    from openpyxl import Workbook
    from openpyxl.styles import Font

    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = "Order"
    sheet.append(["item", "one bay", f"{plan.task.shape.bays} bays", "unit"])
    for what, one, all_of_it, unit in order_rows(plan):
        sheet.append([what.strip(), float(one) if one else None, None if all_of_it is None else float(all_of_it), unit])
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for column, width in (("A", 52), ("B", 12), ("C", 12), ("D", 10)):
        sheet.column_dimensions[column].width = width
    book.properties.created = datetime.fromisoformat(date)
    written = BytesIO()
    book.save(written)
    return dated(written, date)
