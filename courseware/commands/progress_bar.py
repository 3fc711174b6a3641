"""A progress bar on the terminal, shown only once the work has taken a second."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress

_PATIENCE = 1.0  # seconds before anything is shown


@contextmanager
def progress(what: str, total: int) -> Iterator[Callable[[int], None]]:
    """Gives a callable that hears how many more of `total` are done. Silent where no terminal listens."""
    started, done = time.monotonic(), 0
    bar = None
    task = None
    try:

        def tell(more: int) -> None:
            nonlocal bar, task, done
            done += more
            if bar is None and sys.stderr.isatty() and time.monotonic() - started > _PATIENCE:
                bar = _bar()
                bar.start()
                task = bar.add_task(what, total=total)
            if bar is not None and task is not None:
                bar.update(task, completed=done)

        yield tell
    finally:
        if bar is not None:
            bar.stop()


def _bar() -> Progress:
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    return Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        TimeRemainingColumn(),
        console=Console(stderr=True),
        transient=True,
    )
