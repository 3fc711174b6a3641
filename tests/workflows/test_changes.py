"""A learner joins, a name is put right: stopped anywhere, the same command ends with the same folder."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from courseware.files import atomic
from courseware.papers.group import Learner
from courseware.workflows import changes, issuing
from tests.commands.conftest import desk, files, issue, only_folder  # noqa: F401  # the fixture

LATE = (Learner(name="Kofi Mensah", reference="0016"), Learner(name="Bea Hart"))  # invented


class Quiet:
    """Nobody looks on."""

    def note(self, text: str) -> None:
        raise AssertionError(text)

    def waiting(self) -> None:
        raise AssertionError("nobody else works here")

    def progress(self, what: str, total: int):
        from contextlib import nullcontext

        return nullcontext(lambda done: None)


@pytest.fixture
def folder(desk) -> Path:  # noqa: F811
    return issue()


def test_a_run_stopped_at_any_write_is_gone_on_with(folder, tmp_path, monkeypatch) -> None:
    whole = tmp_path / "whole" / folder.name
    shutil.copytree(folder, whole)
    changes.join(str(whole), LATE, 1, Quiet())
    wanted, write = files(whole), atomic.write_whole_by
    for stop in range(1, 9):  # four sheets, two joined files, the grid, the marking sheet
        here = tmp_path / f"stopped-{stop}" / folder.name
        shutil.copytree(folder, here)
        count = 0

        def stopping(*args, stop=stop, **more) -> None:
            nonlocal count
            count += 1
            if count == stop:
                raise KeyboardInterrupt
            write(*args, **more)

        with monkeypatch.context() as patched:
            patched.setattr(atomic, "write_whole_by", stopping)
            patched.setattr("courseware.workflows.joined_files.write_whole_by", stopping)
            with pytest.raises(KeyboardInterrupt):
                changes.join(str(here), LATE, 1, Quiet())
        assert (here / "sitting.json").read_bytes() == (folder / "sitting.json").read_bytes(), stop
        changes.join(str(here), LATE, 1, Quiet())
        assert files(here) == wanted, stop


def test_what_cannot_be_printed_changes_nothing(folder, monkeypatch) -> None:
    before = files(folder)

    def refuse(text: str) -> None:
        raise issuing.SittingFaulty("changed by hand")

    monkeypatch.setattr(issuing, "compose_all", refuse)
    with pytest.raises(issuing.SittingFaulty):
        changes.rename(str(folder), "0014", "Zoë Smythe", None, 1, Quiet())
    assert files(folder) == before


def test_a_marking_sheet_that_is_not_as_issued_is_left_alone_and_told(folder) -> None:
    sheet = folder / "for-tutor/marking-sheet.xlsx"
    sheet.write_bytes(b"no workbook")
    told: list[str] = []
    watch = Quiet()
    watch.note = told.append  # type: ignore[method-assign]
    changed = changes.join(str(folder), LATE[:1], 1, watch)
    assert sheet.read_bytes() == b"no workbook"
    assert changed.papers[0].code in told[0]
    assert only_folder(folder.parent) == folder
