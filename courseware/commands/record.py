"""The record: sittings taken in and listed, a learner's own given out or deleted for good, how long things are kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from collections.abc import Callable

    from courseware.desk.forgetting import Forgotten
    from courseware.desk.learner_gone import Going, Gone


def _placed(command: Callable[..., Any]) -> Callable[..., Any]:
    """Adds the options that say where the record is."""
    out = click.option("--out", default="output", show_default=True, help="The output folder; the record is in it.")
    record = click.option(
        "--record", default=None, metavar="URL", help="The record: a database URL or a file (or $COURSEWARE_RECORD)."
    )
    return record(out(command))


@click.group()
def record() -> None:
    """Keep sittings, scripts and marks; give a learner's out or delete them; see what is past its time."""


@record.command("take")
@click.argument("sittings", nargs=-1, required=True, metavar="SITTING...")
@_placed
def take_in(sittings: tuple[str, ...], record: str | None, out: str) -> None:
    """Take each SITTING (its folder or sitting.json) into the record: a lost record is made anew from them."""
    from datetime import UTC, datetime

    from courseware.desk.issuing import record_text
    from courseware.desk.record_place import opened, record_url
    from courseware.desk.sitting_files import RECORD
    from courseware.evidence.sittings import take
    from courseware.evidence.written import note_files
    from courseware.papers.record import read_record

    files = [Path(name) / RECORD if Path(name).is_dir() else Path(name) for name in sittings]
    texts = [record_text(file) for file in files]
    read = [read_record(text) for text in texts]  # all of them sound before any is taken in
    with opened(record_url(record, Path(out)), make=True) as engine:
        for file, sitting, text in zip(files, read, texts, strict=True):
            taken = take(engine, sitting, text, at=datetime.now(UTC))
            note_files(engine, [file])
            said = "Taken in" if taken else "There already"
            click.echo(f"{said}: {sitting.code}, {sitting.title}, {sitting.date}, {_papers(len(sitting.papers))}")


@record.command("list")
@_placed
def list_sittings(record: str | None, out: str) -> None:
    """List the sittings in the record, with how many papers have a script. No names."""
    from courseware.desk.record_place import opened, record_url
    from courseware.evidence.sittings import sittings

    with opened(record_url(record, Path(out)), make=False) as engine:
        for one in sittings(engine):
            retake = f", a retake of {one.retake_of}" if one.retake_of else ""
            group = f", {one.group}" if one.group else ""
            click.echo(f"{one.code}  {one.date}  {one.title}{group}{retake}")
            click.echo(f"  {_papers(one.papers)}, {one.scripts} with a script")


@record.command()
@click.argument("who")
@_placed
def export(who: str, record: str | None, out: str) -> None:
    """Write all that the record has of WHO (a paper code, a reference or the name as on the paper) to a folder."""
    from datetime import date

    from courseware.desk.exporting import write_export
    from courseware.desk.record_place import opened, record_url
    from courseware.errands import check_out, waiting
    from courseware.evidence.learners import export_learner
    from courseware.evidence.written import note_files

    check_out(out)
    with opened(record_url(record, Path(out)), make=False) as engine:
        data = export_learner(engine, who)
        folder = write_export(data, Path(out), date.today().isoformat(), waiting)
        note_files(engine, sorted(folder.iterdir()), [paper["code"] for paper in data["papers"]])
    click.echo(f"Everything of this learner, {_papers(len(data['papers']))}, in {folder}")
    click.echo("  It shows the answers to the papers: read it before you hand it on.")


@record.command()
@click.argument("who")
@click.option("--sitting", "folders", multiple=True, metavar="FOLDER", help="A sitting's folder elsewhere; repeat it.")
@click.option("--yes", is_flag=True, help="Do not ask first.")
@_placed
def delete(who: str, folders: tuple[str, ...], yes: bool, record: str | None, out: str) -> None:
    """Delete WHO (a paper code, a reference or the name as on the paper) for good, in the record and in the folders."""
    from contextlib import ExitStack

    from courseware.desk.learner_gone import delete_everywhere, going
    from courseware.desk.record_place import opened, record_file, record_url
    from courseware.errands import waiting

    url = record_url(record, Path(out))
    file = record_file(url)
    with ExitStack() as open_until_done:
        there = file is None or file.exists()
        engine = open_until_done.enter_context(opened(url, make=False)) if there else None
        parents = [Path(out), *([file.parent] if file else [])]
        found = going(engine, who, [Path(folder) for folder in folders], parents)
        _say_what_goes(found)
        if not yes:
            click.confirm("Delete all of this for good?", abort=True)
        _say_what_went(delete_everywhere(engine, found, waiting))


@record.command()
@click.argument("kind", required=False)
@click.argument("months", required=False)
@click.option("--by", default=None, help="Who says so (the name you are logged in with unless given).")
@_placed
def keep(kind: str | None, months: str | None, by: str | None, record: str | None, out: str) -> None:
    """Show how long each kind of record is kept; or keep KIND for MONTHS (a number, or `always`)."""
    from datetime import UTC, datetime

    from courseware.desk.record_place import opened, record_url
    from courseware.errands import who_says
    from courseware.evidence import retention

    if kind is not None and months is None:
        raise click.UsageError("Give KIND with MONTHS, such as `scripts 36` or `names always`; or neither.")
    with opened(record_url(record, Path(out)), make=kind is not None) as engine:
        if kind is not None and months is not None:
            retention.keep(engine, kind, _months(months), by=who_says(by, "--by"), at=datetime.now(UTC))
        for one, time in retention.kept(engine).items():
            click.echo(f"{one}: " + ("always" if time is None else f"{time} months after the sitting"))


@record.command()
@_placed
def past(record: str | None, out: str) -> None:
    """List what is past the time for which it is kept. Nothing is deleted."""
    from datetime import date

    from courseware.desk.record_place import opened, record_url
    from courseware.evidence import retention

    with opened(record_url(record, Path(out)), make=False) as engine:
        found = retention.past(engine, date.today())
        for one in found:
            click.echo(
                f"{one.kind} of {one.sitting}, {one.title}, {one.held_on}: kept until {one.until}; {_papers(one.count)}"
            )
        if found:
            click.echo("`courseware record delete WHO` deletes a learner's records for good.")
        elif not any(retention.kept(engine).values()):
            click.echo("No time is set, so everything is kept. Set one with `courseware record keep KIND MONTHS`.")
        else:
            click.echo("Nothing is past its time.")


def _months(typed: str) -> int | None:
    if typed == "always":
        return None
    if not (typed.isascii() and typed.isdigit() and len(typed) < 6):
        raise click.BadParameter(f"{typed} is no number of months; write 36, or `always`", param_hint="MONTHS")
    return int(typed)


def _papers(count: int) -> str:
    return f"{count} paper{'' if count == 1 else 's'}"


def _say_what_goes(found: Going) -> None:
    click.echo(f"To be deleted: {_papers(len(found.papers.codes))}, {', '.join(found.papers.codes)}")
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
        click.echo(f"  The record in {path} cannot be read, so nobody can say who is in it.", err=True)


def _say_what_went(gone: Gone) -> None:
    if gone.record:
        click.echo(f"Deleted in the record: {_papers(len(gone.record.papers))}.")
        if gone.record.sittings:
            click.echo(f"  No papers were left in {', '.join(gone.record.sittings)}, so it went too.")
        if gone.record.blotted:
            count = gone.record.blotted
            click.echo(f"  {count} texts typed on other papers named the learner; the name is blotted there.")
        for place in gone.record.still:
            click.echo(f"  The name still stands in {place}.")
    for folder in (*(one for one in gone.beside if one.removed or one.remade or one.look), *gone.folders):
        _say_what_went_from(folder)
    click.echo("Class lists, print-outs, back-ups and copies that lie elsewhere are for you to delete.")


def _say_what_went_from(folder: Forgotten) -> None:
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
