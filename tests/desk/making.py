"""What the tests of making papers share: a tutor's own bank in the folder of work, a class list, papers begun."""

from __future__ import annotations

from pathlib import Path

from courseware.workflows.exercises_at_hand import Pick
from courseware.workflows.papers_begun import PapersBegun, begin_papers, papers_begun
from tests.piers_sitting import BANK

LENGTH = Pick(bank="banks/piers.yaml", exercise="pier-length")
LIST = "Name,ID,Paper\nAmara Okafor,0012,large-18\nŁukasz Wójcik,0013,huge\nTotal,2,\n".encode()  # invented


def with_own_bank(work: Path) -> Path:
    """The folder of work with a bank of the tutor's own, on piers."""
    (work / "banks").mkdir(exist_ok=True)
    (work / "banks" / "piers.yaml").write_text(BANK, encoding="utf-8")
    return work


def newly_begun(work: Path, **chosen: object) -> str:
    """The key of papers begun with what was chosen."""
    return begin_papers(with_own_bank(work), PapersBegun(**chosen))


def kept(work: Path, key: str) -> PapersBegun:
    """What is kept of them now."""
    return papers_begun(work, key)
