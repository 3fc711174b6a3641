"""A job's workbooks: the stores' order, and the observation sheet that works out pass or fail as figures are typed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import TypeAlias

from courseware.jobs.observation import GRADES, JUDGED
from courseware.jobs.order import order_rows
from courseware.jobs.plan import Plan, counted
from courseware.spreadsheets.xlsx_out import dated

Cell: TypeAlias = str | float | None
MEASURED_PAGE = {"line": 44, "target, mm": 14, "allowed, ± mm": 14, "measured, mm": 14, "pass or fail": 14}
GIVEN = "given"
JUDGED_PAGE: Mapping[str, int] = {"line": 20, **{str(grade): 34 for grade in GRADES}, GIVEN: 14}
PHOTOS_PAGE = {"file": 44, "what it shows": 60}
ABOUT, WRITTEN = "about", "written"
_ABOUT_ROWS = ("learner", "bay", "assessor", "date", "assessor's comment", "learner's comment")
_HOW = (
    "Learner: a paper code, the reference, or the name as on the paper. Date: as 2026-11-25.",
    f"Given, on the sheet `Judged`: {', '.join(GRADES[:-1])} or {GRADES[-1]}. A line left blank stays open.",
    "Photographs: files in the folder of this workbook, or in one below it. They stay where they are.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """A sheet of a workbook: headings with the widths of their columns, then the rows."""

    title: str
    headings: Mapping[str, int]
    rows: Iterable[Iterable[Cell]]


def stores_workbook(plan: Plan, date: str) -> bytes:
    """The workbook: one line an item, for one bay and for the class. The same plan and date give the same bytes."""
    headings = {"item": 52, "one bay": 12, counted(plan.task.shape.bays, "bay"): 12, "unit": 10}
    rows = [
        [what.strip(), float(one) if one else None, float(for_class), unit]
        for what, one, for_class, unit in order_rows(plan)
    ]
    return _workbook([_Page(title="Order", headings=headings, rows=rows)], date)


def observation_workbook(plan: Plan, date: str) -> bytes:
    """The measured lines with a cell for each figure, where the last column says pass or fail once it is typed; the
    lines judged by eye; who is observed; photographs.
    """
    rows: list[list[Cell]] = [
        [
            line.what, float(line.target), float(line.allowed), None,
            f'=IF(ISNUMBER(D{row}),IF(ABS(D{row}-B{row})<=C{row},"pass","fail"),"")',
        ]
        for row, line in enumerate(plan.lines, 2)
    ]  # fmt: skip
    profile = plan.task.profile
    rows += [[], [f"Tolerances: {profile.name} ({profile.source})"]]
    about: list[list[Cell]] = [["job", plan.task.shape.job]]
    about += [[what, None] for what in _ABOUT_ROWS]
    pages = (
        _Page(title="Measured", headings=MEASURED_PAGE, rows=rows),
        _Page(title="Judged", headings=JUDGED_PAGE, rows=[[*line, None] for line in JUDGED]),
        _Page(title="Learner", headings={ABOUT: 22, WRITTEN: 60}, rows=[*about, [], *([None, line] for line in _HOW)]),
        _Page(title="Photographs", headings=PHOTOS_PAGE, rows=()),
    )
    return _workbook(pages, date)


def _workbook(pages: Sequence[_Page], date: str) -> bytes:
    from openpyxl import Workbook
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    for page in pages:
        sheet = book.worksheets[0] if page is pages[0] else book.create_sheet()
        sheet.title = page.title
        for row in (page.headings, *page.rows):
            sheet.append(list(row))
        for column, (cell, width) in enumerate(zip(sheet[1], page.headings.values(), strict=True), 1):
            cell.font = Font(bold=True)
            sheet.column_dimensions[get_column_letter(column)].width = width
    book.properties.created = datetime.fromisoformat(date)
    written = BytesIO()
    book.save(written)
    return dated(written, date)
