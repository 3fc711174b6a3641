"""The marking sheet: one row a paper, one cell a part, every cell text so that 1/2 stays 1/2."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from courseware.marking.marks import Script
from courseware.papers.sitting import IssuedPaper, Sitting

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell, MergedCell

_SPARE = 40  # rows of text cells below the last paper, for a paper that was copied out again
_TEXT = "@"
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")  # openpyxl dates it on saving
_LEAD = ("code", "name", "reference", "status")
_DECIDED = ("code", "part", "marks", "reason", "comment")
_HOW = {
    "number": "as written: 910, 910 mm, 0.91 m, 2½; nr where not reached",
    "table": "as written, a cell for each row",
    "choice": "the letters ticked: B, or A C",
    "order": "the letters in the learner's order: C A D B",
    "drawn": "y or n for each point of the key: yyn; or all, or none",
}


_STATUS = (
    ("", "handed in on the day; a row without any answer is a paper that is not in yet"),
    ("absent", "the learner was not there; the paper stays out of the figures"),
    ("late", "handed in late; it is marked as any other, and says so"),
    ("resubmitted", "the same paper once more, in a row of its own: only parts not yet right are marked anew"),
)


def marking_sheet(sitting: Sitting, scripts: Sequence[Script] = ()) -> bytes:
    """The workbook: answers, the assessor's decisions, and what the parts are. Names are text, never formulas.

    `scripts` are filled in, as the demonstration's are.
    """
    from openpyxl import Workbook
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    labels = [part.label for exercise in sitting.papers[0].exercises for part in exercise.parts]
    own = {script.code: script for script in scripts}
    papers = [_row(paper, own.get(paper.code), labels) for paper in sitting.papers]
    pages: tuple[tuple[str, list[tuple[str, ...]], int, tuple[int, ...]], ...] = (
        ("Answers", [(*_LEAD, *labels), *papers], _SPARE, (14, 28, 14, 12)),
        ("Decisions", [_DECIDED], _SPARE + len(papers), (14, 10, 8, 50, 50)),
        ("Parts", [("part", "exercise", "kind", "unit", "marks", "how to write it"), *_part_lines(sitting)], 0,
         (10, 36, 12, 12, 8, 60)),
        ("Status", [("status", "what it says"), *_STATUS], 0, (14, 70)),
    )  # fmt: skip
    book = Workbook()
    for place, (title, rows, spare, widths) in enumerate(pages):
        sheet = book.create_sheet(title) if place else book.worksheets[0]
        sheet.title = title
        for row, texts in enumerate([*rows, *[()] * spare], 1):
            for column in range(1, len(rows[0]) + 1):
                _write(sheet.cell(row, column), texts[column - 1] if column <= len(texts) else "")
        for cell in sheet[1]:
            cell.font = Font(bold=True)
        for column, width in enumerate(widths, 1):
            sheet.column_dimensions[get_column_letter(column)].width = width
    book.worksheets[0].freeze_panes = "E2"
    book.properties.created = datetime.fromisoformat(sitting.date)
    written = BytesIO()
    book.save(written)
    return dated(written, sitting.date)


def _row(paper: IssuedPaper, script: Script | None, labels: Sequence[str]) -> tuple[str, ...]:
    lead = (paper.code, paper.learner.name, paper.learner.reference)
    if script is None:
        return lead
    return (*lead, script.status, *(script.cells.get(label, "") for label in labels))


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
        (part.label, exercise.exercise, part.kind, part.unit, str(part.marks), _HOW[part.kind])
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
