"""`courseware appeal`: opened with a reason, closed by another person's sheet."""

from __future__ import annotations

from pathlib import Path

from tests.commands.conftest import run
from tests.workflows.filled_marks import fill


def test_an_appeal_is_opened_and_its_outcome_entered(place) -> None:
    code = place.sitting.papers[1].code
    assert "no learner of the sitting is called Nobody" in run("appeal", place.path, "Nobody").output
    assert "an appeal is opened for a reason" in run("appeal", place.path, code).output
    name = place.sitting.papers[1].learner.name.upper()  # a learner goes by code, reference or name, as everywhere
    begun = run("appeal", place.path, name, "--reason", "1a was right", "--date", "2026-02-01", "--by", "J. Marsh")
    assert begun.exit_code == 0, begun.output
    assert f"An appeal on {code} is open" in begun.output
    again = run("appeal", place.path, code, "--reason", "once more")
    assert (again.exit_code, "enter its outcome first" in again.output) == (2, True)
    sheet = Path(f"output/appeal-{code}-2026-02-01/re-mark-{code}.xlsx")
    outcome = {"outcome": "stands", "date": "2026-02-09", "reason": "as marked"}
    done = run("appeal", place.path, code, fill(sheet, "again.xlsx", outcome=outcome), "--assessor", "R. Holt")
    assert done.exit_code == 0, done.output
    assert f"The appeal on {code} is closed: 0 marks changed." in done.output
