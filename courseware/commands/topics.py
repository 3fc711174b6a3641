"""`courseware topics`: what comes with the program."""

from __future__ import annotations

import click


@click.command()
def topics() -> None:
    """List the topics that come with the program, and their exercises."""
    from courseware.commands.proof_report import list_topics
    from courseware.files.bank_files import read_banks, shipped_banks

    banks, notes = read_banks(shipped_banks())
    list_topics(banks, notes, shipped_banks())
