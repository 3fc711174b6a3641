"""The commands. Each reads its options, calls the desk and prints what came of it."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any

import click

from courseware import __version__

if TYPE_CHECKING:
    from courseware.banks import Proof

_FAILED, _FAULTY, _STOPPED = 1, 2, 3

_RULE = click.Choice(["outline", "near"])
_rule_option = click.option(
    "--arris-rule",
    type=_RULE,
    default="outline",
    show_default=True,
    help="Which arris of a projecting course this centre levels: the outline's, or the one nearer the eye.",
)
_jobs_option = click.option(
    "--jobs",
    type=click.IntRange(1, 64),
    default=None,
    help="Processes at work at once (two where there are two cores).",
)


class _Commands(click.Group):
    """Turns what may be expected to go wrong into one plain message and an exit code."""

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort):
            raise
        except KeyboardInterrupt:
            raise click.Abort from None
        except Exception as error:
            from courseware.desk.messages import explain

            message, code = explain(error)
            if message is None or code is None:
                raise
            click.echo(message, err=True)
            raise click.exceptions.Exit(code) from None


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="courseware")
def main() -> None:
    """Bricklaying papers and keys from question banks: proved, different for each learner, equally hard."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


@main.command()
def topics() -> None:
    """List the topics that come with the program, and their exercises."""
    from courseware.desk.reports import list_topics
    from courseware.desk.shelf import read_shelf, shipped_banks

    banks, notes = read_shelf(shipped_banks(), "outline")
    list_topics(banks, notes, shipped_banks())


@main.command()
@click.argument("banks", nargs=-1, metavar="[BANK]...")
@_rule_option
@_jobs_option
def check(banks: tuple[str, ...], arris_rule: str, jobs: int | None) -> None:
    """Prove every variant of every exercise in BANKs (files, or shipped topics by name; all of those if none)."""
    from courseware.desk.proving import first_failures
    from courseware.desk.reports import report_proofs, tell_failure
    from courseware.desk.shelf import find_banks, read_shelf, shipped_banks

    read, notes = read_shelf(find_banks(banks) if banks else shipped_banks(), arris_rule)
    chosen = tuple((bank, exercise) for bank in read for exercise in bank.exercises)
    if notes is not None and not chosen:
        click.echo(f"{notes.file}: {len(notes.notes)} safety notes, no faults.")
        return
    proofs = _prove(chosen, arris_rule, jobs)
    report_proofs(read, proofs)
    failures = list(first_failures(proofs))
    for exercise, failure in failures:
        tell_failure(exercise, failure)
    if failures:
        raise click.exceptions.Exit(_FAILED)


def _prove(chosen: Any, arris_rule: str, jobs: int | None) -> tuple[Proof, ...]:
    from courseware.banks import raw_size
    from courseware.desk.progress import progress
    from courseware.desk.proving import prove_all

    with progress("Proving variants", sum(raw_size(exercise) for _, exercise in chosen)) as tell:
        return prove_all(chosen, arris_rule, jobs or _cores(), tell)


def _cores() -> int:
    return 2 if (os.cpu_count() or 1) > 1 else 1


if __name__ == "__main__":
    main()
