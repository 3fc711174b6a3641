"""`courseware job`: the sheets of a practical task, and worksheets on its own figures."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import (
    approved_option,
    by_centre,
    cores,
    date_option,
    day,
    folder_of,
    group_options,
    jobs_option,
    out_option,
    who_says,
)
from courseware.commands.terminal import TERMINAL

if TYPE_CHECKING:
    from courseware.jobs.task import Task
    from courseware.settings.settings import Settings


@click.command()
@click.argument("task_files", nargs=-1, required=True, metavar="JOB...")
@group_options
@date_option
@approved_option
@out_option
@by_centre("job", arris_rule=True)
@jobs_option
def job(
    task_files: tuple[str, ...],
    group: str | None,
    group_name: str | None,
    learners: int | None,
    date: str | None,
    approved_by: str | None,
    out: str,
    settings: Settings,
    jobs: int | None,
) -> None:
    """Make the sheets of a practical task: job sheet, templates at true size, order, prompts, observation sheet.

    With a class list or a number of learners: worksheets on the job's own figures as well.
    """
    if group is not None and learners is not None:
        raise click.UsageError("Give either --group with a class list, or --learners with a number.")
    tasks = write_jobs(task_files, day(date), out, settings)
    if group is None and learners is None:
        return
    from courseware.workflows.issue import IssueOptions, group_of, issue_worksheet

    made = group_of(Path(group) if group else None, learners or 1, group_name, TERMINAL)
    options = IssueOptions(out=Path(out), settings=settings, processes=cores(jobs), by=who_says(None, "--by"))
    if approved_by:
        options = replace(options, approved_by=who_says(approved_by, "--approved-by"))
    for task in tasks:
        if len(made.learners) != task.shape.learners:
            told = f"the job is for {task.shape.learners}, worksheets are for {len(made.learners)}"
            TERMINAL.note(f"{task.shape.job}: {told}; the order and the bays are the job's.")
        issued = issue_worksheet(task, made, day(date), options, TERMINAL)
        click.echo(f"Worksheets on the job, and their keys, in {issued.folder}")


def write_jobs(named: tuple[str, ...], date: str, out: str, settings: Settings) -> tuple[Task, ...]:
    """Writes the sheets of each job, all of them read first. Returns the tasks."""
    from courseware.files.bank_files import shipped_notes
    from courseware.workflows.jobs import find_job, write_job

    into = folder_of(out)
    tasks = tuple(find_job(name, settings) for name in named)
    for task in tasks:
        folder = write_job(task, shipped_notes(), date, into, TERMINAL.waiting)
        click.echo(f"Job sheets in {folder}")
    return tasks
