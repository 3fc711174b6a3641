"""`courseware register`, `confirm` and `release`: where each paper is, and how far its script has come."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import click

from courseware.commands.options import Command, by_option, day, names_option, out_option, record_option, who_says
from courseware.words import count

if TYPE_CHECKING:
    from sqlalchemy import Engine

    from courseware.database.register import Entry
    from courseware.database.states import Moved

_for = click.option(
    "--for", "whose", multiple=True, metavar="WHO", help="Only this learner (code, reference or name); repeat it."
)
_back = click.option("--undo", metavar="REASON", default=None, help="Take it back instead, for this reason.")


def _placed(command: Command) -> Command:
    return record_option(out_option(command))


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.option("--absent", metavar="WHO", default=None, help="WHO was absent (a code, a reference or a name).")
@click.option("--late", metavar="WHO", default=None, help="WHO hands in later, as agreed: give --until.")
@click.option("--resubmission", metavar="WHO", default=None, help="WHO hands in again: give --until.")
@click.option("--withdraw", metavar="WHO", default=None, help="The paper of WHO is withdrawn.")
@click.option("--undo", metavar="WHO", default=None, help="Take back what was entered last of WHO.")
@click.option("--until", metavar="DATE", default=None, help="The day agreed, as 2026-11-25.")
@click.option("--reason", default="", help="Why.")
@by_option
@names_option
@_placed
def register(
    sitting: str,
    absent: str | None,
    late: str | None,
    resubmission: str | None,
    withdraw: str | None,
    undo: str | None,
    until: str | None,
    reason: str,
    by: str | None,
    names: bool,
    url: str | None,
    out: str,
) -> None:
    """Show where each paper of SITTING is (folder, or code in the record), or enter something of one learner."""
    from courseware.workflows.register import enter, register_lines

    asked = {"absent": absent, "late": late, "resubmission": resubmission, "withdrawn": withdraw, "back": undo}
    entries = [(entry, who) for entry, who in asked.items() if who is not None]
    if len(entries) > 1:
        raise click.UsageError("Enter one thing at a time.")
    due = day(until, "--until") if until else ""
    with _record(sitting, url, out) as (engine, code):
        for entry, who in entries:
            enter(engine, code, who, cast("Entry", entry), due=due, reason=reason, by=who_says(by, "--by"))
        for line in register_lines(engine, code):
            paper = line.paper
            name = f"  {paper.name}" if names and paper.name else ""
            told = [f"due {paper.due}"] if paper.due and paper.entry != "withdrawn" else []
            told += [f"attempt {paper.attempt}"] if paper.attempt > 1 else []
            told += [paper.sheets] if paper.sheets else []
            told += [f"taken again on {', '.join(paper.retakes)}"] if paper.retakes else []
            click.echo(f"{paper.code}{name}  {'; '.join([line.words, *told])}")


@click.command()
@click.argument("sitting", metavar="SITTING")
@_for
@_back
@by_option
@_placed
def confirm(sitting: str, **asked: Any) -> None:
    """Confirm the marked scripts of SITTING: nothing in them waits, and the marks are right."""
    from courseware.workflows.register import confirm_scripts

    _moved(sitting, confirm_scripts, "confirmed", **asked)


@click.command()
@click.argument("sitting", metavar="SITTING")
@_for
@_back
@by_option
@_placed
def release(sitting: str, **asked: Any) -> None:
    """Release the confirmed scripts of SITTING: then a mark changes by a decision alone, and its sheet says so."""
    from courseware.workflows.register import release_scripts

    _moved(sitting, release_scripts, "released", **asked)


def _moved(
    sitting: str, move: Callable[..., Moved], what: str, *,
    whose: tuple[str, ...], undo: str | None, by: str | None, url: str | None, out: str,
) -> None:  # fmt: skip
    from courseware.workflows.register import take_scripts_back

    who = who_says(by, "--by")
    with _record(sitting, url, out) as (engine, code):
        if undo is not None:
            _tell(take_scripts_back(engine, code, whose, reason=undo, by=who), "taken back")
        else:
            _tell(move(engine, code, whose, by=who), what)


def _tell(moved: Moved, what: str) -> None:
    click.echo(f"{count(len(moved.codes), 'script')} {what}.")
    for one in moved.left:
        click.echo(f"  not {one.code}: {one.words}", err=True)


@contextmanager
def _record(sitting: str, url: str | None, out: str) -> Iterator[tuple[Engine, str]]:
    """The record, and the code of the sitting in it. For a folder's sitting the record stands beside the folder."""
    from courseware.files.record_location import opened, record_url
    from courseware.workflows.quality import sittings_meant

    beside = Path(sitting).resolve().parent if Path(sitting).is_dir() else Path(out)
    with opened(record_url(url, beside), make=False) as engine:
        [code] = sittings_meant(engine, [sitting])
        yield engine, code
