"""`courseware standardise`: a pack out, an assessor's marks in."""

from __future__ import annotations

from pathlib import Path

from tests.commands.conftest import run
from tests.workflows.filled_marks import fill


def test_a_pack_is_made_and_an_assessors_marks_are_entered(place) -> None:
    made = run("standardise", place.path, "--assessor", "P. Dunn", "--date", "2026-02-10")
    assert made.exit_code == 0, made.output
    [workbook] = Path("output").glob("standardising-*.xlsx")
    sheet = fill(workbook, "one.xlsx")
    assert run("standardise", place.path, sheet, "--assessor", "A", "--assessor", "B").exit_code == 2
    done = run("standardise", place.path, sheet, "--assessor", "P. Dunn")
    assert done.exit_code == 0, done.output
    assert "by P. Dunn entered; 1 assessor so far." in done.output
