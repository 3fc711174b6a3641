"""Who looks on in the tests of workflows: hears everything, prints nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from courseware.papers.group import numbered
from courseware.settings.settings import Settings
from courseware.workflows.issue import IssueOptions, issue_sitting
from courseware.workflows.watch import Tell
from tests.piers_sitting import BANK


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


@pytest.fixture
def strict(tmp_path, monkeypatch) -> Callable[..., IssueOptions]:
    """Options of a sitting in a fresh folder, of a centre that prints nothing before it is approved."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    Path("piers.yaml").write_text(BANK, encoding="utf-8")
    centre = Settings(approval="required")
    return lambda **more: IssueOptions(
        **{"out": Path("output"), "settings": centre, "processes": 1, "title": "Piers", **more}
    )


@pytest.fixture
def for_approval(strict, heard) -> Callable[[], Path]:
    """Deals two papers for approval; gives their folder."""
    asked = ["piers.yaml"], numbered(2), "2026-01-12"
    return lambda: issue_sitting(*asked, strict(for_approval=True), heard).folder
