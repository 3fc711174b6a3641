"""Options that more than one command has, each with one help text, and what is asked of what is typed for them."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, cast

import click

if TYPE_CHECKING:
    from courseware.settings.settings import Settings

Command = TypeVar("Command", bound=Callable[..., Any])

_arris_rule_option = click.option(
    "--arris-rule",
    type=click.Choice(["outline", "near"]),
    default=None,
    help="Which arris of a projecting course this centre levels: the outline's, or the one nearer the eye "
    "(as its settings say, else outline).",
)
centre_option = click.option(
    "--centre",
    metavar="FILE",
    default=None,
    help="The centre's settings (centre.yaml in this folder, where it is there, unless given).",
)
jobs_option = click.option(
    "--jobs",
    type=click.IntRange(1, 64),
    default=None,
    help="Processes at work at once (two where there are two cores).",
)
level_option = click.option("--level", type=click.IntRange(1, 3), default=None, help="Only exercises of this level.")
date_option = click.option("--date", default=None, help="The date on the sheets, as 2026-11-25 (today unless given).")
approved_option = click.option(
    "--approved-by", metavar="NAME", default=None, help="Who approved the papers before they are printed."
)
due_option = click.option("--due", default=None, help="When papers are to be handed in, as 2026-12-02.")
by_option = click.option(
    "--by", "--assessor", "by", default=None, help="Who says so (the name you are logged in by unless given)."
)
names_option = click.option("--names", is_flag=True, help="Show names beside codes.")
out_option = click.option(
    "--out", default="output", show_default=True, help="The output folder; what is made stands in it."
)
word_option = click.option(
    "--word",
    is_flag=True,
    help="An editable copy (DOCX) of each paper and key too; once edited it is proved no more.",
)
record_option = click.option(
    "--record",
    "url",
    default=None,
    metavar="URL",
    help="The record: a file or database URL ($COURSEWARE_RECORD, else record.sqlite in the output folder).",
)

second_language_option = click.option(
    "--second-language",
    metavar="FILE",
    default=None,
    help="A second language beside the words: CSV or XLSX with a column `word` and one headed by the language's tag.",
)


def group_options(command: Command) -> Command:
    """Adds the options that say who gets papers: a class list, or so many numbered papers."""
    for option in (
        click.option(
            "--learners", type=click.IntRange(1, 1000), default=None, help="Instead: so many numbered papers."
        ),
        click.option(
            "--group-name", default=None, help="The name of the group (from the class list's file unless given)."
        ),
        click.option(
            "--group", metavar="FILE", default=None, help="The class list: CSV or XLSX with a name on each row."
        ),
    ):
        command = option(command)
    return command


def by_centre(what: str, *, arris_rule: bool = False) -> Callable[[Command], Command]:
    """Hands a command the centre's settings, as `settings`, by the option --centre (and --arris-rule, which wins).

    `what` names the keys that the command goes by (`settings.KEYS`).
    """

    def add(command: Command) -> Command:
        @wraps(command)
        def run(*args: Any, centre: str | None, arris_rule: str | None = None, **more: Any) -> Any:
            return command(*args, settings=settings_of(centre, what, arris_rule), **more)

        added = cast("Command", run)
        return centre_option(_arris_rule_option(added) if arris_rule else added)

    return add


def settings_of(centre: str | None, what: str, arris_rule: str | None = None) -> Settings:
    """The centre's settings, with an arris rule that was typed; one line says which keys of its file hold here."""
    from courseware.files.centre_file import find_settings
    from courseware.settings.settings import KEYS

    found = find_settings(centre)
    if changed := found.changed(KEYS[what]):
        click.echo(f"The centre's settings in {found.file}: {', '.join(changed)}.")
    return replace(found, arris_rule=arris_rule) if arris_rule else found


def cores(jobs: int | None) -> int:
    """Processes at work at once: those asked for, else two where there are two cores."""
    return jobs or (2 if (os.cpu_count() or 1) > 1 else 1)


def day(typed: str | None, option: str = "--date") -> str:
    """The date typed, else today's, as ISO 8601 has it."""
    from datetime import date

    try:
        return (date.fromisoformat(typed) if typed else date.today()).isoformat()
    except ValueError:
        raise click.BadParameter(f"{typed} is not a date; write it as 2026-11-25", param_hint=option) from None


def folder_of(out: str) -> Path:
    """The output folder; one that cannot be written to is refused before any work is done."""
    from courseware.files.atomic import unusable

    if why := unusable(Path(out)):
        raise click.BadParameter(f"{out} cannot be written to: {why}", param_hint="--out")
    return Path(out)


def printable(text: str | None, option: str) -> str | None:
    """A text for the sheets, refused where no page can hold it."""
    from courseware.papers.sitting_checks import LONGEST_TITLE, is_plain

    if text is not None and not is_plain(text, LONGEST_TITLE):
        advice = f"use at most {LONGEST_TITLE} characters, all of which can be seen"
        raise click.BadParameter(advice, param_hint=option)
    return text


def who_says(named: str | None, option: str) -> str:
    """Whose name a record keeps beside what is done: the one given, else the one logged in by."""
    from getpass import getuser

    from courseware.papers.names import LONGEST_NAME
    from courseware.papers.sitting_checks import is_plain

    who = (named or getuser()).strip()
    if not who or not is_plain(who, LONGEST_NAME):
        raise click.BadParameter(f"write a name of at most {LONGEST_NAME} plain characters", param_hint=option)
    return who
