"""`courseware progress`: one sheet of what a class practised at home."""

from __future__ import annotations

from pathlib import Path

from tests.commands.conftest import run
from tests.practice.saved_practices import as_bytes, saved


def test_a_sheet_is_made_and_a_changed_file_told(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("a.json").write_bytes(as_bytes(saved()))
    Path("b.json").write_bytes(as_bytes(saved("Zoë", 2, seal="0")))
    done = run("progress", "a.json", "b.json")
    assert done.exit_code == 0, done.output
    assert done.output.splitlines()[:2] == [
        "b.json is not to be relied on: it was changed since the page saved it.", "2 learners:",
    ]  # fmt: skip
    assert sorted(file.suffix for file in Path("output").iterdir()) == [".pdf", ".xlsx"]


def test_what_is_no_saved_practice_is_refused_with_its_name(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("b.json").write_bytes(b"PK\x03\x04")
    done = run("progress", "b.json")
    assert done.exit_code == 2
    assert "b.json:1:1: this is no saved practice" in done.output
    assert not Path("output").exists()
