"""Who looks on in the tests of workflows: hears everything, prints nothing."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

import pytest

from courseware.workflows.watch import Tell


@dataclass
class Heard:
    """A `Watch` that keeps what it was told."""

    notes: list[str] = field(default_factory=list)
    waited: int = 0
    work: dict[str, tuple[int, int]] = field(default_factory=dict)  # by what is done: how much of how much

    def note(self, text: str) -> None:
        self.notes.append(text)

    def waiting(self) -> None:
        self.waited += 1

    @contextmanager
    def progress(self, what: str, total: int) -> Iterator[Tell]:
        self.work[what] = (0, total)

        def tell(more: int) -> None:
            done, _ = self.work[what]
            self.work[what] = (done + more, total)

        yield tell


@pytest.fixture
def heard() -> Heard:
    return Heard()
