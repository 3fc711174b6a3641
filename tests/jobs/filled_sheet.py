"""An observation sheet as an assessor fills it in."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO

import openpyxl

from courseware.jobs.plan import Plan
from courseware.jobs.workbooks import observation_workbook

GOOD = {"Joints": "good", "Corners": "enough", "Face": "good", "Safe working": "g"}
ABOUT = {"learner": "Amara Okafor", "assessor": "J. Marsh", "date": "2026-02-03", "bay": "2"}  # invented


def filled(
    plan: Plan,
    lines: Mapping[str, object] | None = None,
    photos: tuple[tuple[str, str], ...] = (),
    **about: object,
) -> bytes:
    """The sheet with every measured line at its target and every judged line good, but for those given otherwise."""
    book = openpyxl.load_workbook(BytesIO(observation_workbook(plan, "2026-02-02")))
    typed = {**{line.what: float(line.target) for line in plan.lines}, **GOOD, **(lines or {})}
    for page, column in (("Measured", 4), ("Judged", 5)):
        for row in book[page].iter_rows(min_row=2):
            if row[0].value in typed:
                book[page].cell(row[0].row, column, typed[row[0].value])
    for row in book["Learner"].iter_rows(min_row=2):
        if row[0].value in {**ABOUT, **about}:
            book["Learner"].cell(row[0].row, 2, {**ABOUT, **about}[row[0].value])
    for photo in photos:
        book["Photographs"].append(photo)
    written = BytesIO()
    book.save(written)
    return written.getvalue()
