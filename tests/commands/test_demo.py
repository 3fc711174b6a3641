"""`courseware demo`: all of it for an invented group."""

from __future__ import annotations

import json
from pathlib import Path

from courseware.files.bank_files import shipped_banks
from tests.commands.conftest import run


def test_demo_makes_it_all_for_an_invented_group_and_says_where(desk, few_questions) -> None:
    done = run("demo")
    assert done.exit_code == 0, done.output
    [folder] = [path.parent for path in Path("output").glob("*/sitting.json")]
    [job] = [path.parent for path in Path("output").glob("*/job-sheet.pdf")]
    assert str(job) in done.output
    assert str(folder) in done.output
    marked = {path.name for path in (folder / "marked").iterdir()}
    assert {"all-feedback.pdf", "class-picture.pdf", "class-picture.xlsx", "to-settle.xlsx"} <= marked
    assert len([name for name in marked if name.startswith("feedback-")]) == 7, "one of the eight is absent"
    assert "7 scripts marked (1 absent)." in done.output
    assert "1 to settle" in done.output
    assert Path("output/practice.html").exists()
    sitting = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))
    assert len(sitting["papers"]) == 8
    assert {e["topic"] for e in sitting["papers"][0]["exercises"]} == {
        line.split(": ", 1)[1]
        for path in shipped_banks()
        for line in path.read_text("utf-8").splitlines()
        if line.startswith("topic: ")
    }
