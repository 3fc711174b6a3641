"""`courseware appeal`: an appeal against marks opened, and its outcome entered."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import (
    by_centre,
    cores,
    date_option,
    day,
    jobs_option,
    names_option,
    printable,
    record_option,
    who_says,
)
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.argument("who", metavar="WHO")
@click.argument("sheet", required=False, metavar="[SHEET]")
@click.option("--reason", default="", help="Why the learner appeals (to open one).")
@click.option(
    "--assessor",
    "--by",
    "assessor",
    default=None,
    help="Who opens it, or who marked again (the name you are logged in by).",
)
@date_option
@names_option
@record_option
@jobs_option
@by_centre("audit")
def appeal(
    sitting: str,
    who: str,
    sheet: str | None,
    reason: str,
    assessor: str | None,
    date: str | None,
    names: bool,
    url: str | None,
    jobs: int | None,
    settings: Settings,
) -> None:
    """Open an appeal on the paper of WHO (code, reference or name) in SITTING; with SHEET, enter its outcome.

    SHEET is filled in by another person. While the appeal is open, answers and marks of the paper stay as they are.
    """
    from courseware.files.record_location import opened, record_url
    from courseware.files.sitting_folders import sitting_folder
    from courseware.workflows.appeal import begin_appeal, end_appeal
    from courseware.workflows.retaking import learners_of

    where = sitting_folder(sitting)
    [paper] = learners_of(where.sitting, [who])
    code, by = paper.code, who_says(assessor, "--assessor")
    with opened(record_url(url, where.path.resolve().parent), make=False) as engine:
        if sheet is None:
            said = (printable(reason, "--reason") or "").strip()
            begun = begin_appeal(engine, where, code, settings, reason=said, by=by, day=day(date))
            click.echo(f"An appeal on {begun.appeal.code} is open; its answers and marks stay as they are.")
            click.echo(f"  as it stood: {begun.frozen}")
            click.echo(f"  for another person to mark again: {begun.sheet}")
            click.echo(f"  then: courseware appeal {where.path} {begun.appeal.code} {begun.sheet} --assessor NAME")
            return
        done = end_appeal(
            engine, where, code, Path(sheet), settings, TERMINAL, by=by, names=names, processes=cores(jobs)
        )
    click.echo(f"The appeal on {done.appeal.code} is closed: {count(done.changed, 'mark')} changed.")
    for file in done.files:
        click.echo(f"  {file}")
