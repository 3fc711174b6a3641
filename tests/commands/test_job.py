"""`courseware job`: its folder, its worksheets, and what it refuses."""

from __future__ import annotations

import re
from pathlib import Path

import openpyxl
import pypdfium2
from click.testing import CliRunner

from courseware.banks import read_bank
from courseware.cli import main
from courseware.files.bank_files import shipped_folder
from tests.jobs.a_panel import JOB, JOBS


def test_the_command_writes_every_sheet_and_the_order_as_a_workbook(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("mine.yaml").write_text(JOB, encoding="utf-8")
    done = CliRunner().invoke(main, ["job", "mine.yaml", "--date", "2026-01-05"])
    assert done.exit_code == 0, done.output
    folder = Path("output/2026-01-05-a-panel")
    assert sorted(path.name for path in folder.iterdir()) == [
        "job-sheet.pdf", "observation-sheet.pdf", "observation-sheet.xlsx", "risk-prompts.pdf", "stores-order.pdf", "stores-order.xlsx", "templates.pdf",
    ]  # fmt: skip
    sheet = openpyxl.load_workbook(folder / "stores-order.xlsx").worksheets[0]
    lines = {row[0].value: row[2].value for row in sheet.iter_rows(min_row=2)}
    assert lines["Bricks in the wall around the opening"] == 3 * (8 * 24 - 4 * 15)
    assert lines["Bricks in the panel"] == 3 * 3 * 12


def test_an_unknown_job_is_told_with_those_that_there_are(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(main, ["job", "none"])
    assert done.exit_code == 2
    assert "shipped jobs are " + ", ".join(JOBS) in done.output


def test_worksheets_come_with_the_job_and_can_be_made_again(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("group-a.csv").write_text("Name\nAmara Okafor\nZoë O'Brien-Smythe\n", encoding="utf-8")
    done = CliRunner().invoke(
        main, ["job", "porch-panel", "--group", "group-a.csv", "--date", "2026-01-05", "--jobs", "1"]
    )
    assert done.exit_code == 0, done.output
    assert "the job is for 8, worksheets are for 2" in done.output
    [file] = Path("output").glob("*/sitting.json")
    assert file.parent.name == "2026-01-05-worksheet-a-framed-panel-beside-group-a"
    again = CliRunner().invoke(main, ["again", str(file), "--out", "second", "--jobs", "1"])
    assert again.exit_code == 0, again.output
    [second] = Path("second").glob("*/sitting.json")
    for path in file.parent.rglob("*.pdf"):
        assert (second.parent / path.relative_to(file.parent)).read_bytes() == path.read_bytes(), path.name


def test_a_worksheet_on_one_bay_over_one_course_speaks_of_one(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    text = JOB.replace("bays: 3", "bays: 1").replace("below: 4", "below: 1")
    Path("mine.yaml").write_text(text, encoding="utf-8")
    done = CliRunner().invoke(main, ["job", "mine.yaml", "--learners", "1", "--date", "2026-01-05", "--jobs", "1"])
    assert done.exit_code == 0, done.output
    [papers] = Path("output").glob("*/for-learners/all-papers.pdf")
    [keys] = Path("output").glob("*/for-tutor/all-keys.pdf")
    words = " ".join(
        " ".join(page.get_textpage().get_text_bounded().split())
        for path in (papers, keys)
        for page in pypdfium2.PdfDocument(path)
    )
    assert "1 course of wall stands under the opening" in words
    assert "1 bay is built" in words
    assert not re.search(r"(?<![0-9.])1 (courses|bays|bats|bricks|pieces)\b", words)


def test_a_worksheet_that_fails_its_proof_is_not_issued(tmp_path, monkeypatch) -> None:
    """Worksheets go the way of every sitting: proved first, and nothing made where the proof fails."""
    monkeypatch.chdir(tmp_path)
    sheet = (shipped_folder() / "jobs" / "worksheet.yaml").read_text(encoding="utf-8")
    wrong = sheet.replace("value: courses * course + joint, earns", "value: courses * course + 2 * joint, earns", 1)
    assert wrong != sheet
    bank = read_bank(wrong.encode(), "worksheet.yaml")
    monkeypatch.setattr("courseware.workflows.issue.worksheet", lambda _task: (bank, bank.exercises[:1]))
    done = CliRunner().invoke(main, ["job", "porch-panel", "--learners", "2"])
    assert done.exit_code == 1
    assert "nothing was made" in done.output
    assert not list(Path("output").glob("*/sitting.json"))
