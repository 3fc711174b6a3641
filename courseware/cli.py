"""The commands, and what is told when something goes wrong in one."""

from __future__ import annotations

import sys
from typing import Any

import click

from courseware import __version__
from courseware.commands.again import again
from courseware.commands.appeal import appeal
from courseware.commands.audit import audit
from courseware.commands.board import board
from courseware.commands.check import check
from courseware.commands.criteria import criteria
from courseware.commands.demo import demo
from courseware.commands.desk import desk
from courseware.commands.distance import distance
from courseware.commands.glossary import glossary
from courseware.commands.issue import issue
from courseware.commands.job import job
from courseware.commands.join import join
from courseware.commands.mark import mark
from courseware.commands.observe import observe
from courseware.commands.plan import plan
from courseware.commands.practise import practise
from courseware.commands.progress import progress
from courseware.commands.record import record
from courseware.commands.register import confirm, register, release
from courseware.commands.rename import rename
from courseware.commands.sample import sample
from courseware.commands.sides import sides
from courseware.commands.standardise import standardise
from courseware.commands.topics import topics


class _Commands(click.Group):
    """Turns whatever goes wrong into one plain message and an exit code."""

    def main(self, *args: Any, **more: Any) -> Any:
        typed = args[0] if args else more.get("args")
        for word in sys.argv[1:] if typed is None else typed:
            _refuse_unless_utf_8(word)
        try:
            return super().main(*args, **more)
        except (SystemExit, KeyboardInterrupt, click.ClickException, click.exceptions.Exit, click.Abort):
            raise
        except BaseException as error:  # the page engine has one that is not an Exception
            from courseware.workflows.messages import FAULT_OF_PROGRAM, explain, keep_details

            message, code = explain(error)
            click.echo(message or keep_details(error), err=True)
            sys.exit(code or FAULT_OF_PROGRAM)


def _refuse_unless_utf_8(word: str) -> None:
    """Ends the run where a file's name, or whatever was typed, holds bytes that are no letters here."""
    try:
        word.encode("utf-8")
    except UnicodeEncodeError:
        shown = word.encode("ascii", "backslashreplace").decode()
        why = "these letters are not UTF-8; give the file or folder another name"
        click.echo(f"{shown}: {why}. Nothing was made.", err=True)
        sys.exit(2)


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="courseware")
def main() -> None:
    """Bricklaying papers and keys from question banks: proved, different for each learner, equally hard."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


for command in (
    desk,
    topics,
    check,
    plan,
    issue,
    demo,
    job,
    observe,
    again,
    join,
    rename,
    mark,
    register,
    confirm,
    release,
    appeal,
    standardise,
    sample,
    audit,
    criteria,
    distance,
    record,
    practise,
    progress,
    board,
    glossary,
    sides,
):
    main.add_command(command)


if __name__ == "__main__":
    main()
