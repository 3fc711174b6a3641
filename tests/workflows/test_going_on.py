"""Papers of a stopped run: gone on with from what it left, or thrown away."""

from __future__ import annotations

import shutil
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from courseware.database.opening import open_record
from courseware.database.sittings import sittings
from courseware.files.bank_files import NotFound
from courseware.papers.group import numbered
from courseware.settings.settings import DEFAULTS
from courseware.workflows.going_on import go_on, stopped_issues, throw_away
from courseware.workflows.issue import IssueOptions, issue_sitting
from courseware.workflows.watch import Stopped
from tests.piers_sitting import BANK
from tests.workflows.conftest import Heard


class Killed(BaseException):
    """Ends a run where it stands, as a kill does: nothing tidies up."""


class Ending(Heard):
    """A watch that ends the run after so many sheets, by an error of its own."""

    def __init__(self, after: int, error: BaseException) -> None:
        super().__init__()
        self.after, self.error = after, error

    @contextmanager
    def progress(self, what: str, total: int):
        with super().progress(what, total) as told:

            def tell(more: int) -> None:
                told(more)
                if what == "Printing" and self.work[what][0] >= self.after:
                    raise self.error

            yield tell


@pytest.fixture
def out(tmp_path: Path, monkeypatch) -> Path:
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    (tmp_path / "piers.yaml").write_text(BANK, encoding="utf-8")
    return tmp_path / "output"


def issue(out: Path, watch: Heard, **more: object):
    options = replace(IssueOptions(out=out, settings=DEFAULTS, processes=1, seed="a seed"), **more)
    return issue_sitting([str(out.parent / "piers.yaml")], numbered(3), "2026-01-05", options, watch)


def files(folder: Path) -> dict[str, bytes]:
    pdfs = folder.rglob("*.pdf")
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in (*pdfs, folder / "sitting.json")}


def test_the_same_papers_come_of_it_as_of_a_run_that_was_not_stopped(out: Path, heard: Heard) -> None:
    with pytest.raises(Killed):
        issue(out, Ending(3, Killed()))
    [left] = stopped_issues(out)
    assert (left.title, left.papers, left.printed) == ("Piers", 3, 1)
    printed = files(left.path)
    gone_on = go_on(out, left.path, 1, heard)
    assert gone_on is not None
    assert gone_on.papers == 3
    assert stopped_issues(out) == ()
    assert printed.items() <= files(gone_on.folder).items(), "what was printed stays as it is"
    engine = open_record(f"sqlite:///{out}/record.sqlite")
    assert [one.code for one in sittings(engine)] == [gone_on.code]
    engine.dispose()
    whole = files(gone_on.folder)
    shutil.rmtree(out)
    assert files(issue(out, heard).folder) == whole


def test_editable_copies_that_were_asked_for_are_made_too(out: Path, heard: Heard) -> None:
    with pytest.raises(Killed):
        issue(out, Ending(2, Killed()), word=True)
    gone_on = go_on(out, stopped_issues(out)[0].path, 1, heard)
    assert gone_on is not None
    assert len(list(gone_on.folder.rglob("*.docx"))) == 6


def test_a_run_stopped_for_good_leaves_nothing_and_one_to_be_gone_on_with_does(out: Path) -> None:
    with pytest.raises(Stopped):
        issue(out, Ending(2, Stopped()))
    assert stopped_issues(out) == ()
    assert list(out.glob(".*.unfinished")) == []
    with pytest.raises(Stopped):
        issue(out, Ending(2, Stopped(kept=True)))
    assert len(stopped_issues(out)) == 1


def test_it_is_thrown_away_when_that_is_asked(out: Path, heard: Heard) -> None:
    with pytest.raises(Killed):
        issue(out, Ending(2, Killed()))
    [left] = stopped_issues(out)
    assert throw_away(out, left.path, heard)
    assert not throw_away(out, left.path, heard)
    assert go_on(out, left.path, 1, heard) is None
    assert stopped_issues(out) == ()


def test_a_place_that_was_taken_meanwhile_is_left_alone(out: Path, heard: Heard) -> None:
    with pytest.raises(Killed):
        issue(out, Ending(2, Killed()))
    [left] = stopped_issues(out)
    place = out / left.path.name.removeprefix(".").removesuffix(".unfinished")
    place.mkdir()
    with pytest.raises(NotFound, match="has come there since"):
        go_on(out, left.path, 1, heard)
    assert list(place.iterdir()) == []
