"""Papers printed as they were dealt for approval, and by no other way."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.papers.sitting_file import SittingFaulty
from courseware.workflows.approval import read_dealt
from courseware.workflows.print_approved import issue_approved
from tests.piers_sitting import run


def head(folder: Path) -> dict:
    return json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["sitting"]


def test_what_was_dealt_is_what_is_printed(strict, for_approval, heard) -> None:
    folder = for_approval()
    assert sorted(path.name for path in folder.iterdir()) == ["assurer-sheet.pdf", "for-approval.json"]
    sitting, _ = read_dealt(folder)
    issued = issue_approved(folder, strict(approved_by="Q. Adeyemi"), heard)
    assert not folder.exists()
    assert head(issued.folder)["code"] == sitting.code
    assert head(issued.folder)["approved_by"] == "Q. Adeyemi"
    printed = {path.name for path in (issued.folder / "for-learners").iterdir()}
    assert printed == {"all-papers.pdf", *(f"paper-{paper.code}.pdf" for paper in sitting.papers)}
    assert (issued.folder / "for-tutor" / "assurer-sheet.pdf").is_file()
    assert run("register", str(issued.folder)).output.count("issued") == 2


def test_nothing_is_printed_from_what_was_dealt_by_another_way(strict, for_approval, heard) -> None:
    folder = for_approval()
    assert run("again", str(folder)).exit_code == 2
    assert run("again", str(folder / "for-approval.json")).exit_code == 2
    assert "0" not in run("record", "list").output  # it is no sitting of the record yet
    with pytest.raises(NotFound, match="your centre prints no papers"):
        issue_approved(folder, strict(), heard)
    assert folder.exists()


def test_an_answer_changed_by_hand_is_not_printed(strict, for_approval, heard) -> None:
    file = for_approval() / "for-approval.json"
    data = json.loads(file.read_text(encoding="utf-8"))
    first = json.loads(data["dealt"])
    first["papers"][0]["exercises"][0]["parts"][0]["answer"] = "1"
    file.write_text(json.dumps({**data, "dealt": json.dumps(first)}), encoding="utf-8")
    with pytest.raises(SittingFaulty):
        issue_approved(file.parent, strict(approved_by="Q. Adeyemi"), heard)
