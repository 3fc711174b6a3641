"""Papers approved before they are printed: dealt, looked through, printed as they were dealt."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.papers.group import numbered
from courseware.settings.settings import Settings
from courseware.workflows.approval import must_be_approved, read_dealt, waiting_for_approval
from courseware.workflows.issue import issue_sitting


def head(folder: Path) -> dict:
    return json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["sitting"]


def test_where_approval_is_required_nothing_is_printed_without_it(strict, heard) -> None:
    with pytest.raises(NotFound, match="your centre prints no papers before they are approved") as refused:
        issue_sitting(["piers.yaml"], numbered(1), "2026-01-12", strict(), heard)
    assert "\n" not in str(refused.value)
    assert not Path("output").exists()


def test_papers_approved_as_they_are_issued_keep_the_sheet_too(strict, heard) -> None:
    by = strict(approved_by="Q. Adeyemi", settings=Settings())
    issued = issue_sitting(["piers.yaml"], numbered(1), "2026-01-12", by, heard)
    assert head(issued.folder)["approved_by"] == "Q. Adeyemi"
    assert (issued.folder / "for-tutor" / "assurer-sheet.pdf").is_file()


@pytest.mark.parametrize("change", [lambda text: text[:-9], lambda text: "[]", lambda text: text.replace("dealt", "x")])
def test_a_file_changed_by_hand_is_told(for_approval, change) -> None:
    file = for_approval() / "for-approval.json"
    file.write_text(change(file.read_text(encoding="utf-8")), encoding="utf-8")
    with pytest.raises(NotFound, match="has been changed by hand; deal the papers again"):
        read_dealt(file.parent)


def test_papers_that_wait_are_listed_and_a_folder_changed_by_hand_is_not(for_approval) -> None:
    folder = for_approval()
    [one] = waiting_for_approval(folder.parent)
    assert (one.path, one.title, one.date) == (folder, read_dealt(folder)[0].title, read_dealt(folder)[0].date)
    (folder / "for-approval.json").write_text("[]", encoding="utf-8")
    assert waiting_for_approval(folder.parent) == ()


def test_another_folder_is_told(tmp_path) -> None:
    with pytest.raises(NotFound, match="is not a folder made with --for-approval"):
        read_dealt(tmp_path)


@pytest.mark.parametrize(("approval", "by"), [("", ""), ("", "Q. Adeyemi"), ("required", "Q. Adeyemi")])
def test_else_papers_are_printed(approval: str, by: str) -> None:
    must_be_approved(Settings(approval=approval), by)
