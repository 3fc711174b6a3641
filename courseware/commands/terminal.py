"""The terminal looking on: notes on the error stream, a progress bar where work takes longer than a second."""

from __future__ import annotations

from contextlib import AbstractContextManager
from typing import TYPE_CHECKING

import click

from courseware.commands.progress_bar import progress

if TYPE_CHECKING:
    from courseware.workflows.watch import Tell


class Terminal:
    """A `Watch` that prints."""

    def note(self, text: str) -> None:
        """Something that the tutor should know, though the work goes on."""
        click.echo(f"Note: {text}", err=True)

    def waiting(self) -> None:
        """Another run is writing to the folder, and this one waits for it."""
        click.echo("Another run is writing to this folder; waiting for it to end.", err=True)

    def progress(self, what: str, total: int) -> AbstractContextManager[Tell]:
        """A bar, once the work has taken a second."""
        return progress(what, total)


TERMINAL = Terminal()
