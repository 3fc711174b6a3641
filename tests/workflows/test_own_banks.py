"""A tutor's own banks: begun, copied from shipped ones, found by name alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.banks import prove, read_bank
from courseware.files.bank_files import OWN_BANKS, NotFound, shipped_banks
from courseware.workflows.own_banks import (
    NEW_BANK,
    banks_shipped,
    begin_bank,
    copy_shipped,
    open_bank,
    open_shipped,
    own_banks,
)


def test_a_new_bank_proves_as_it_stands(tmp_path: Path) -> None:
    name = begin_bank(tmp_path, "My piers")
    assert name == "my-piers"
    assert open_bank(tmp_path, name).text == NEW_BANK
    [exercise] = read_bank(NEW_BANK.encode(), "new.yaml").exercises
    proof = prove(exercise)
    assert proof.failure is None
    assert len(proof.space) == 36  # 5 to 40 bricks: lengths of four figures


def test_a_shipped_bank_is_copied_whole_under_a_free_name(tmp_path: Path) -> None:
    names = [copy_shipped(tmp_path, "mitre_template") for _ in range(2)]
    assert names == ["mitre-template", "mitre-template-2"]
    shipped = next(path for path in shipped_banks() if path.stem == "mitre_template")
    assert open_bank(tmp_path, names[0]).text == shipped.read_text(encoding="utf-8")
    assert {bank.topic for bank in own_banks(tmp_path)} == {open_shipped("mitre_template").topic}


def test_shipped_banks_are_told_by_their_topics() -> None:
    found = {bank.name: bank.topic for bank in banks_shipped()}
    assert found["opening_sizes"] == "Opening sizes"
    assert list(found) == [path.stem for path in shipped_banks()]


def test_safety_notes_and_what_is_no_text_are_no_banks_to_open(tmp_path: Path) -> None:
    begin_bank(tmp_path, "own")
    (tmp_path / OWN_BANKS / "safety_notes.yaml").write_text("safety_notes: []\n", encoding="utf-8")
    (tmp_path / OWN_BANKS / "strange.yaml").write_bytes(b"\xff\xfe\x00j")
    assert [(bank.name, bool(bank.text)) for bank in own_banks(tmp_path)] == [("own", True), ("strange", False)]


@pytest.mark.parametrize("name", ["../own", "safety_notes", "jobs/worksheet", ""])
def test_no_name_leads_elsewhere(tmp_path: Path, name: str) -> None:
    begin_bank(tmp_path, "own")
    for find in (open_shipped, lambda name: open_bank(tmp_path, name), lambda name: copy_shipped(tmp_path, name)):
        with pytest.raises(NotFound):
            find(name)
