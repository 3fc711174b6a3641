"""The record: sittings taken in and listed, a learner's own given out or deleted for good, how long things are kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import Command, by_centre, by_option, folder_of, out_option, record_option, who_says
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


def _placed(command: Command) -> Command:
    """Adds the options that say where the record is."""
    return record_option(out_option(command))


@click.group()
def record() -> None:
    """Keep sittings, scripts and marks; give a learner's out or delete them; see what is past its time."""


@record.command("take")
@click.argument("sittings", nargs=-1, required=True, metavar="SITTING...")
@_placed
def take_in(sittings: tuple[str, ...], url: str | None, out: str) -> None:
    """Take each SITTING (its folder or sitting.json) into the record: a lost record is made again from them."""
    from datetime import UTC, datetime

    from courseware.database.sittings import take
    from courseware.database.written_files import note_files
    from courseware.files.record_location import opened, record_url
    from courseware.files.sitting_files import SITTING
    from courseware.files.sitting_folders import sitting_text
    from courseware.papers.sitting_file import read_sitting

    files = [Path(name) / SITTING if Path(name).is_dir() else Path(name) for name in sittings]
    texts = [sitting_text(file) for file in files]
    read = [read_sitting(text) for text in texts]  # all of them sound before any is taken in
    with opened(record_url(url, Path(out)), make=True) as engine:
        for file, sitting, text in zip(files, read, texts, strict=True):
            taken = take(engine, sitting, text, at=datetime.now(UTC))
            note_files(engine, [file])
            said = "Taken in" if taken else "There already"
            click.echo(
                f"{said}: {sitting.code}, {sitting.title}, {sitting.date}, {count(len(sitting.papers), 'paper')}"
            )


@record.command("list")
@_placed
def list_sittings(url: str | None, out: str) -> None:
    """List the sittings in the record, with how many papers have a script. No names."""
    from courseware.database.sittings import sittings
    from courseware.files.record_location import opened, record_url

    with opened(record_url(url, Path(out)), make=False) as engine:
        for one in sittings(engine):
            retake = f", a retake of {one.retake_of}" if one.retake_of else ""
            group = f", {one.group}" if one.group else ""
            click.echo(f"{one.code}  {one.date}  {one.title}{group}{retake}")
            click.echo(f"  {count(one.papers, 'paper')}, {one.scripts} with a script")


@record.command()
@click.argument("who")
@_placed
def export(who: str, url: str | None, out: str) -> None:
    """Write all that the record has of WHO (a paper code, a reference or the name as on the paper) to a folder."""
    from datetime import date

    from courseware.files.record_location import record_url
    from courseware.workflows.export import export_everything

    out_folder = folder_of(out)
    day = date.today().isoformat()
    folder, papers = export_everything(record_url(url, out_folder), out_folder, who, day, TERMINAL)
    click.echo(f"Everything of this learner, {count(papers, 'paper')}, in {folder}")
    click.echo("  It shows the answers to the papers: read it before you hand it on.")


@record.command()
@click.argument("who")
@click.option("--sitting", "folders", multiple=True, metavar="FOLDER", help="A sitting's folder elsewhere; repeat it.")
@click.option("--elsewhere", is_flag=True, help="Also outside these folders, where the record knows of anything.")
@click.option("--yes", is_flag=True, help="Do not ask first.")
@_placed
def delete(who: str, folders: tuple[str, ...], elsewhere: bool, yes: bool, url: str | None, out: str) -> None:
    """Delete WHO (a paper code, a reference or the name as on the paper) for good, in the record and in the folders."""
    from courseware.files.record_location import record_url
    from courseware.workflows.erasing import erase, found_to_erase, what_goes, what_went

    named = [Path(folder) for folder in folders]
    asked = found_to_erase(record_url(url, Path(out)), Path(out), who, named, elsewhere=elsewhere)
    with asked as (engine, found):
        click.echo("\n".join(what_goes(found)))
        if not yes:
            click.confirm("Delete all of this for good?", abort=True)
        click.echo("\n".join(what_went(erase(engine, found, TERMINAL))))


@record.command()
@click.argument("kind", required=False)
@click.argument("months", required=False)
@by_option
@_placed
@by_centre("record")
def keep(kind: str | None, months: str | None, by: str | None, url: str | None, out: str, settings: Settings) -> None:
    """Show how long each kind of data is kept; or keep KIND for MONTHS (a number, or `always`)."""
    from datetime import UTC, datetime

    from courseware.database import retention
    from courseware.files.record_location import opened, record_url

    if kind is not None and months is None:
        raise click.UsageError("Give KIND with MONTHS, such as `scripts 36` or `names always`; or neither.")
    with opened(record_url(url, Path(out)), make=kind is not None) as engine:
        if kind is not None and months is not None:
            who, at = who_says(by, "--by"), datetime.now(UTC)
            retention.keep(engine, kind, _months(months), by=who, at=at, centre=settings.retention)
        for one, time in retention.kept(engine, settings.retention).items():
            click.echo(f"{one}: " + ("always" if time is None else f"{time} months after the sitting"))


@record.command()
@_placed
@by_centre("record")
def past(url: str | None, out: str, settings: Settings) -> None:
    """List what is past the time for which it is kept. Nothing is deleted."""
    from datetime import date

    from courseware.database import retention
    from courseware.files.record_location import opened, record_url

    with opened(record_url(url, Path(out)), make=False) as engine:
        found = retention.past(engine, date.today(), settings.retention)
        for one in found:
            click.echo(
                f"{one.kind} of {one.sitting}, {one.title}, {one.held_on}: kept until {one.until}; "
                f"{count(one.count, 'paper')}"
            )
        if found:
            click.echo("`courseware record delete WHO` deletes a learner for good.")
        elif not any(retention.kept(engine, settings.retention).values()):
            click.echo("No time is set, so everything is kept. Set one with `courseware record keep KIND MONTHS`.")
        else:
            click.echo("Nothing is past its time.")


def _months(typed: str) -> int | None:
    if typed == "always":
        return None
    if not (typed.isascii() and typed.isdigit() and len(typed) < 6):
        raise click.BadParameter(f"{typed} is not a number of months; write 36, or `always`", param_hint="MONTHS")
    return int(typed)
