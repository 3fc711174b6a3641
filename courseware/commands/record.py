"""The record: sittings taken in and listed, a learner's own given out or deleted for good, how long things are kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import Command, by_centre, folder_of, out_option, record_option, who_says
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from courseware.erasure.from_folder import ErasedFiles
    from courseware.erasure.learner import Erased, ToErase
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

    from courseware.database.learners import export_learner
    from courseware.database.written_files import note_files
    from courseware.files.record_location import opened, record_url
    from courseware.workflows.export import write_export

    folder_of(out)
    with opened(record_url(url, Path(out)), make=False) as engine:
        data = export_learner(engine, who)
        folder = write_export(data, Path(out), date.today().isoformat(), TERMINAL.waiting)
        note_files(engine, sorted(folder.iterdir()), [paper["code"] for paper in data["papers"]])
    click.echo(f"Everything of this learner, {count(len(data['papers']), 'paper')}, in {folder}")
    click.echo("  It shows the answers to the papers: read it before you hand it on.")


@record.command()
@click.argument("who")
@click.option("--sitting", "folders", multiple=True, metavar="FOLDER", help="A sitting's folder elsewhere; repeat it.")
@click.option("--yes", is_flag=True, help="Do not ask first.")
@_placed
def delete(who: str, folders: tuple[str, ...], yes: bool, url: str | None, out: str) -> None:
    """Delete WHO (a paper code, a reference or the name as on the paper) for good, in the record and in the folders."""
    from contextlib import ExitStack

    from courseware.erasure.learner import delete_everywhere, find_to_erase
    from courseware.files.record_location import opened, record_file, record_url

    at = record_url(url, Path(out))
    file = record_file(at)
    with ExitStack() as open_until_done:
        there = file is None or file.exists()
        engine = open_until_done.enter_context(opened(at, make=False)) if there else None
        parents = [Path(out), *([file.parent] if file else [])]
        found = find_to_erase(engine, who, [Path(folder) for folder in folders], parents)
        _say_what_goes(found)
        if not yes:
            click.confirm("Delete all of this for good?", abort=True)
        _say_what_went(delete_everywhere(engine, found, TERMINAL.waiting))


@record.command()
@click.argument("kind", required=False)
@click.argument("months", required=False)
@click.option("--by", default=None, help="Who says so (the name you are logged in with unless given).")
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


def _say_what_goes(found: ToErase) -> None:
    click.echo(f"To be deleted: {count(len(found.papers.codes), 'paper')}, {', '.join(found.papers.codes)}")
    click.echo(f"  in the record: {', '.join(found.in_record) or 'nothing'}")
    for folder in found.folders:
        click.echo(f"  in the folder {folder.path}")
    if found.papers.others:
        click.echo(f"  NOT, since they may be a namesake's: {', '.join(found.papers.others)}; name each by its code")
    if found.untouched:
        click.echo("  These hold the name or a code, and are left as they are: they are yours, or were changed since:")
        for path in found.untouched:
            click.echo(f"    {path}")
    for code in found.not_found:
        click.echo(f"  The folder of the sitting {code} was not found; if it is still there, name it with --sitting.")
    for path in found.faulty:
        click.echo(f"  The sitting in {path} cannot be read, so nobody can say who is in it.", err=True)


def _say_what_went(gone: Erased) -> None:
    if gone.record:
        click.echo(f"Deleted in the record: {count(len(gone.record.papers), 'paper')}.")
        if gone.record.sittings:
            click.echo(f"  No papers were left in {', '.join(gone.record.sittings)}, so it went too.")
        if gone.record.redacted:
            texts = count(gone.record.redacted, "text")
            click.echo(f"  The name was in {texts} typed on other papers, and is taken out there.")
        for place in gone.record.still:
            click.echo(f"  The name still stands in {place}.")
    for folder in (*(one for one in gone.beside if one.removed or one.remade or one.look), *gone.folders):
        _say_what_went_from(folder)
    click.echo("Class lists, print-outs, back-ups and copies that lie elsewhere are for you to delete.")


def _say_what_went_from(folder: ErasedFiles) -> None:
    if not (folder.removed or folder.remade or folder.look):
        return
    click.echo(f"In {folder.folder}" + (", which held nobody else and is gone." if folder.whole else ":"))
    if folder.removed and not folder.whole:
        click.echo(f"  removed: {', '.join(folder.removed)}")
    if folder.remade:
        click.echo(f"  without the learner: {', '.join(folder.remade)}")
    if folder.was_marked:
        click.echo("  What marking made is removed: run `courseware mark` again.")
    for name in folder.look:
        click.echo(f"  Look through {name} yourself: it names the learner, or cannot be looked into.")
