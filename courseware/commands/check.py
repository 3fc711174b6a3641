"""`courseware check`: every variant of every exercise proved."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, cores, jobs_option
from courseware.commands.terminal import TERMINAL

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@click.argument("banks", nargs=-1, metavar="[BANK]...")
@by_centre("banks", arris_rule=True)
@jobs_option
def check(banks: tuple[str, ...], settings: Settings, jobs: int | None) -> None:
    """Prove every variant of every exercise in BANKs (files, or shipped topics by name; all of those if none)."""
    from courseware.commands.proof_report import report_proofs
    from courseware.files.bank_files import find_banks, read_banks, shipped_banks
    from courseware.workflows.messages import FAILED, failure_line
    from courseware.workflows.proving import first_failures, prove_chosen

    read, notes = read_banks(find_banks(banks) if banks else shipped_banks(), settings)
    chosen = tuple((bank, exercise) for bank in read for exercise in bank.exercises)
    if notes is not None and not chosen:
        click.echo(f"{notes.file}: {len(notes.notes)} safety notes, no faults.")
        return
    proofs = prove_chosen(chosen, cores(jobs), TERMINAL)
    report_proofs(read, proofs)
    failures = list(first_failures(proofs))
    for failure in failures:
        click.echo(failure_line(*failure), err=True)
    if failures:
        raise click.exceptions.Exit(FAILED)
