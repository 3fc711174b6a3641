"""The marking sheet: one row a paper, one cell a part, every cell text so that 1/2 stays 1/2."""

from __future__ import annotations

import re
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from courseware.papers.sitting import Sitting

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell, MergedCell

_SPARE = 40  # rows of text cells below the last paper, for a paper that was copied out again
_TEXT = "@"
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")  # openpyxl dates it on saving
_LEAD = ("code", "name", "reference")


def marking_sheet(sitting: Sitting) -> bytes:
    """The workbook: a sheet to fill in, and one that lists the parts. Names are text, never formulas."""
    from openpyxl import Workbook
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    parts = [part for exercise in sitting.papers[0].exercises for part in exercise.parts]
    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = "Answers"
    rows = [[paper.code, paper.learner.name, paper.learner.reference] for paper in sitting.papers]
    for row, texts in enumerate([[*_LEAD, *(part.label for part in parts)], *rows], 1):
        for column in range(1, len(_LEAD) + len(parts) + 1):
            _write(sheet.cell(row, column), texts[column - 1] if column <= len(texts) else "")
    for row in range(len(rows) + 2, len(rows) + 2 + _SPARE):
        for column in range(1, len(_LEAD) + len(parts) + 1):
            _write(sheet.cell(row, column), "")
    sheet.freeze_panes = "D2"
    about = book.create_sheet("Parts")
    for row, line in enumerate([("part", "exercise", "kind", "unit", "marks"), *_part_lines(sitting)], 1):
        for column, text in enumerate(line, 1):
            _write(about.cell(row, column), text)
    for page, widths in ((sheet, (14, 28, 14)), (about, (10, 36, 12, 12, 8))):
        for cell in page[1]:
            cell.font = Font(bold=True)
        for column, width in enumerate(widths, 1):
            page.column_dimensions[get_column_letter(column)].width = width
    book.properties.created = datetime.fromisoformat(sitting.date)
    written = BytesIO()
    book.save(written)
    return dated(written, sitting.date)


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


def _part_lines(sitting: Sitting) -> list[tuple[str, ...]]:
    return [
        (part.label, exercise.exercise, part.kind, part.unit, str(part.marks))
        for exercise in sitting.papers[0].exercises
        for part in exercise.parts
    ]


def _write(cell: Cell | MergedCell, text: str) -> None:
    """Text as typed: a name that looks like a formula is shown, never reckoned."""
    cell.number_format = _TEXT
    if text and not hasattr(cell, "merged"):
        cell.value = text
        cell.data_type = "s"
    if text.startswith(_FORMULA_STARTS):
        cell.quotePrefix = True
