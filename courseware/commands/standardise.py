"""`courseware standardise`: a pack of scripts that several assessors mark alone, and the spread of their marks."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, date_option, day, printable, record_option, who_says
from courseware.words import count

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.argument("sheet", required=False, metavar="[SHEET]")
@click.option(
    "--assessor", "--by", "assessors", multiple=True, help="Who marks; repeat it for a page for each in a new pack."
)
@date_option
@record_option
@by_centre("sample")
def standardise(
    sitting: str,
    sheet: str | None,
    assessors: tuple[str, ...],
    date: str | None,
    url: str | None,
    settings: Settings,
) -> None:
    """Make a pack of five scripts of SITTING over the range, without names; with SHEET, enter an assessor's marks.

    Each time marks are entered, the spread of all assessors' marks is written.
    """
    from courseware.files.record_location import opened, record_url
    from courseware.files.sitting_folders import sitting_folder
    from courseware.workflows.standardise import enter_standard, make_pack

    where = sitting_folder(sitting)
    named = [printable(name, "--assessor") or "" for name in assessors]
    with opened(record_url(url, where.path.resolve().parent), make=False) as engine:
        if sheet is None:
            files = make_pack(engine, where, settings, assessors=named, day=day(date))
            click.echo("A pack to standardise with:")
            for file in files:
                click.echo(f"  {file}")
            click.echo("Each assessor fills in a copy of the workbook; then, one after another:")
            click.echo(f"  courseware standardise {where.path} SHEET --assessor NAME")
            return
        if len(named) > 1:
            raise click.UsageError("A sheet is one assessor's: give --assessor once.")
        who = who_says(named[0] if named else None, "--assessor")
        done = enter_standard(engine, where, Path(sheet), settings, assessor=who, day=day(date))
    click.echo(f"{count(done.added, 'mark')} by {who} entered; {count(done.assessors, 'assessor')} so far. The spread:")
    for file in done.files:
        click.echo(f"  {file}")
