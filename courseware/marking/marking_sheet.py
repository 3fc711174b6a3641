"""The marking sheet: one row a paper, one cell a part, every cell text so that 1/2 stays 1/2."""

from __future__ import annotations

from collections.abc import Sequence

from courseware.marking.marks import Script
from courseware.marking.part_kind import MARKING_KINDS
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.spreadsheets.xlsx_out import Page, safe_workbook

_SPARE = 40  # rows below the last paper, for a paper that was copied out again
_LEAD = {"code": 14, "name": 28, "reference": 14, "status": 12}
_DECIDED = {"code": 14, "part": 10, "marks": 8, "reason": 50, "comment": 50}
_PARTS = {"part": 10, "exercise": 36, "kind": 12, "unit": 12, "marks": 8, "how to write it": 60}
_STATUS = (
    ("", "handed in on the day; a row without any answer is a paper that is not handed in"),
    ("absent", "the learner was not there; the paper stays out of the figures"),
    ("late", "handed in late; it is marked as any other, and says so"),
    ("resubmitted", "the same paper once more, in a row of its own: only parts not yet right are marked again"),
)


def marking_sheet(sitting: Sitting, scripts: Sequence[Script] = ()) -> bytes:
    """The workbook: answers, the assessor's decisions, and what the parts are. Names are text, never formulas.

    `scripts` are filled in, as the demonstration's are.
    """
    labels = [part.label for part in sitting.papers[0].parts]
    own = {script.code: script for script in scripts}
    rows = [_row(paper, own.get(paper.code), labels) for paper in sitting.papers]
    parts = _part_lines(sitting)
    answers = {**_LEAD, **dict.fromkeys(labels, 10)}
    return safe_workbook(
        (
            Page(title="Answers", columns=answers, rows=rows, freeze="E2", spare=_SPARE),
            Page(title="Decisions", columns=_DECIDED, rows=(), spare=_SPARE + len(rows)),
            Page(title="Parts", columns=_PARTS, rows=parts),
            Page(title="Status", columns={"status": 14, "what it says": 70}, rows=_STATUS),
        ),
        sitting.date,
    )


def _row(paper: IssuedPaper, script: Script | None, labels: Sequence[str]) -> tuple[str, ...]:
    typed = (script.status, *(script.cells.get(label, "") for label in labels)) if script else ("",) * (1 + len(labels))
    return (paper.code, paper.learner.name, paper.learner.reference, *typed)


def _part_lines(sitting: Sitting) -> list[tuple[str, ...]]:
    return [
        (part.label, exercise.exercise, part.kind, part.unit, str(part.marks), MARKING_KINDS[part.kind].cell)
        for exercise in sitting.papers[0].exercises
        for part in exercise.parts
    ]
