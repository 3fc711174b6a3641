"""Who looks on while work is done: a terminal or a browser, told in plain words what should be known."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Protocol, TypeAlias

Tell: TypeAlias = Callable[[int], None]  # hears how many more are done


class Watch(Protocol):
    """What a workflow tells while it is at work."""

    def note(self, text: str) -> None:
        """Something that the tutor should know, though the work goes on."""

    def waiting(self) -> None:
        """Another run is writing to the folder, and this one waits for it."""

    def progress(self, what: str, total: int) -> AbstractContextManager[Tell]:
        """How far work of so many steps is, while it is done."""


class Stopped(Exception):
    """Raised by a watch, out of any of its calls, when whoever looks on wants the work to end.

    `kept`: what was begun stays, so that a later run can go on with it.
    """

    def __init__(self, *, kept: bool = False) -> None:
        super().__init__()
        self.kept = kept
