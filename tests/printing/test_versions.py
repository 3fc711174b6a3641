"""What a sitting was made with is kept in it, and `again` says what differs now."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from courseware.cli import main
from courseware.papers.sitting_file import read_sitting, write_sitting
from courseware.printing.versions import versions, what_differs
from tests.erasure.test_from_folder import BANK


def test_each_piece_that_bytes_hang_on_has_its_version() -> None:
    now = versions()
    assert {"courseware", "weasyprint", "pydyf", "fonttools", "harfbuzz", "pango", "fonts"} <= set(now)
    assert all(now.values())


@pytest.mark.parametrize(
    ("then", "says"),
    [
        (versions(), ""),
        ({**versions(), "pango": "1.0.0"}, "pango 1.0.0 then, "),
        ({**versions(), "fonts": "0"}, "fonts 0 then, "),
        ({**versions(), "gone": "1"}, "gone 1 then, none now"),
        ({}, "made before versions were kept"),
    ],
)
def test_what_differs_is_said_in_one_line(then: dict[str, str], says: str) -> None:
    line = what_differs(then, versions())
    assert says in line
    assert (line == "") is (says == "")
    assert "\n" not in line


def test_a_sitting_keeps_its_versions_and_again_tells_what_has_changed(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("piers.yaml").write_text(BANK, encoding="utf-8")
    issue = ["issue", "piers.yaml", "--learners", "1", "--date", "2026-01-05", "--jobs", "1"]
    assert CliRunner().invoke(main, issue).exit_code == 0
    [file] = Path("output").glob("*/sitting.json")
    text = file.read_text(encoding="utf-8")
    assert json.loads(text)["sitting"]["made_with"] == versions()
    assert write_sitting(read_sitting(text)) == text
    same = CliRunner().invoke(main, ["again", str(file), "--out", "same", "--jobs", "1"])
    assert "then" not in same.output
    older = replace(read_sitting(text), made_with={**versions(), "weasyprint": "69.0"})
    Path("older.json").write_text(write_sitting(older), encoding="utf-8")
    told = CliRunner().invoke(main, ["again", "older.json", "--out", "older", "--jobs", "1"])
    assert told.exit_code == 0
    assert "Note: weasyprint 69.0 then, " in told.output
    oldest = replace(older, made_with={})
    Path("oldest.json").write_text(write_sitting(oldest), encoding="utf-8")
    told = CliRunner().invoke(main, ["again", "oldest.json", "--out", "oldest", "--jobs", "1"])
    assert "made before versions were kept" in told.output
