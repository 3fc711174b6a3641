"""`courseware observe`: filled-in observation sheets into the record."""

from __future__ import annotations

from pathlib import Path

from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job
from tests.commands.conftest import run
from tests.jobs.filled_sheet import ABOUT, filled

JOB = "porch-panel"


def sheet(name: str = "amara.xlsx", *given: object, **about: object) -> str:
    Path(name).write_bytes(filled(plan_of(find_job(JOB)), *given, **about))
    return name


def test_the_command_tells_what_came_of_it(place) -> None:
    done = run("observe", JOB, sheet("amara.xlsx", {"Panel, width": 470, "Face": None}))
    assert done.exit_code == 0, done.output
    code = place.sitting.papers[0].code
    assert f"Entered: {code}, A framed panel beside a porch, {ABOUT['date']}: not yet." in done.output
    assert "  not yet: Panel, width\n  not filled in: Face" in done.output
    assert "There already" in run("observe", JOB, "amara.xlsx").output
    assert "Put right" in run("observe", JOB, sheet()).output


def test_nobody_and_somebody_unclear_are_refused_in_one_line(place) -> None:
    done = run("observe", JOB, sheet(learner="Nobody Known"))
    assert (done.exit_code, done.output.count("\n")) == (2, 1)
    assert "no learner goes by Nobody Known" in done.output
    assert "no learner is named" in run("observe", JOB, sheet(learner=None)).output
    assert run("observe", JOB, sheet(learner=None), "--learner", "Amara Okafor").exit_code == 0


def test_what_was_entered_by_mistake_is_withdrawn_for_a_reason(place) -> None:
    run("observe", JOB, sheet())
    take_out = ("observe", JOB, "--withdraw", "--learner", "Amara Okafor", "--assessor", "P. Dunn")
    assert "for a reason: write it" in run(*take_out).output
    done = run(*take_out, "--reason", "another learner's panel")
    assert done.exit_code == 0, done.output
    assert f"Withdrawn: {place.sitting.papers[0].code}, A framed panel beside a porch, {ABOUT['date']}." in done.output
    again = run(*take_out, "--reason", "once more")
    assert (again.exit_code, again.output.count("\n")) == (2, 1)
    assert "nothing is observed of Amara Okafor at porch-panel" in again.output


def test_of_several_days_the_day_is_asked_for(place) -> None:
    run("observe", JOB, sheet())
    run("observe", JOB, "amara.xlsx", "--date", "2026-03-03")
    take_out = ("observe", JOB, "--withdraw", "--learner", "Amara Okafor", "--assessor", "P. Dunn", "--reason", "no")
    assert f"{ABOUT['date']} and 2026-03-03; name the day" in run(*take_out).output
    assert run(*take_out, "--date", "2026-03-03").exit_code == 0
    assert run(*take_out).exit_code == 0  # one is left


def test_sheets_or_a_withdrawal_are_asked_for(place) -> None:
    assert "Name the filled-in sheets" in run("observe", JOB).output
    assert "goes with --learner" in run("observe", JOB, "--withdraw", "--reason", "no").output
