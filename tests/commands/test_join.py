"""`courseware join`: a late learner gets a paper, and nobody else's changes by a byte."""

from __future__ import annotations

import json
import re
from io import BytesIO
from pathlib import Path

from openpyxl import load_workbook
from pypdf import PdfReader

from tests.commands.conftest import files, issue, only_folder, run

WHOLE_CLASS = {
    "for-learners/all-papers.pdf", "for-tutor/all-keys.pdf", "for-tutor/class-grid.pdf", "for-tutor/marking-sheet.xlsx",
    "sitting.json",
}  # fmt: skip


def rows_of(sheet: bytes) -> list[tuple[object, ...]]:
    return [row for row in load_workbook(BytesIO(sheet))["Answers"].iter_rows(values_only=True) if any(row)]


def type_in(folder: Path, row: int, answer: str) -> None:
    file = folder / "for-tutor/marking-sheet.xlsx"
    book = load_workbook(file)
    sheet = book["Answers"]
    column = next(cell.column for cell in sheet[1] if cell.value == "1a")
    sheet.cell(row, column, answer)
    book.save(file)


def test_one_learner_joins_and_nothing_that_was_handed_out_changes(desk) -> None:
    folder = issue()
    before = files(folder)
    type_in(folder, 2, "910")
    done = run("join", folder, "--name", "Kofi Mensah", "--reference", "0016")
    assert done.exit_code == 0, done.output
    after = files(folder)
    changed = {name for name, data in before.items() if after[name] != data}
    code = next(word for word in done.output.split() if re.fullmatch(r"[A-Z]{4}-[A-Z]{4}-[A-Z]", word))
    assert changed == WHOLE_CLASS
    assert after.keys() - before.keys() == {f"for-learners/paper-{code}.pdf", f"for-tutor/key-{code}.pdf"}
    rows = rows_of(after["for-tutor/marking-sheet.xlsx"])
    assert rows[1][-1] == "910"
    assert rows[5][:3] == (code, "Kofi Mensah", "0016")
    grid = "".join(page.extract_text() for page in PdfReader(BytesIO(after["for-tutor/class-grid.pdf"])).pages)
    assert code in grid
    again = run("again", folder, "--out", "second", "--jobs", "1")
    assert again.exit_code == 0, again.output
    made = files(only_folder(Path("second")))
    assert {name for name in after if made.get(name) != after[name]} == {"for-tutor/marking-sheet.xlsx"}


def test_a_list_of_late_learners_is_marked_with_the_others_and_stands_in_the_record(desk) -> None:
    folder = issue()
    type_in(folder, 2, "910")
    assert run("mark", folder).exit_code == 0
    Path("late.csv").write_text("Name,Ref\nKofi Mensah,0016\nBea Hart,\n", encoding="utf-8")
    done = run("join", folder, "--group", "late.csv")
    assert done.exit_code == 0, done.output
    assert "2 papers more" in done.output
    type_in(folder, 7, "910")
    marked = run("mark", folder)
    assert marked.exit_code == 0, marked.output
    assert "2 scripts marked" in marked.output
    shown = run("record", "list")
    assert re.search(r"\b6\b", shown.output), shown.output


def test_a_sitting_issued_with_editable_copies_has_one_of_the_new_paper(desk) -> None:
    folder = issue("--word")
    assert run("join", folder, "--name", "Kofi Mensah").exit_code == 0
    papers = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["papers"]
    assert {path.stem for path in (folder / "for-learners").glob("*.docx")} == {f"paper-{p['code']}" for p in papers}


def test_who_joins_is_said_in_one_way_and_once(desk) -> None:
    folder = issue()
    before = files(folder)
    for words in ((), ("--name", "Bea", "--group", "late.csv"), ("--group", "late.csv", "--reference", "7")):
        assert run("join", folder, *words).exit_code == 2
    twice = run("join", folder, "--name", "Amara Okafor", "--reference", "0012")
    assert (twice.exit_code, files(folder)) == (2, before)
    assert "already" in twice.output


def test_a_sitting_without_its_papers_and_numbered_papers_are_refused(desk) -> None:
    folder = issue()
    Path("alone").mkdir()
    Path("alone/sitting.json").write_bytes((folder / "sitting.json").read_bytes())
    alone = run("join", "alone", "--name", "Kofi Mensah")
    assert alone.exit_code == 2
    assert "courseware again" in alone.output
    assert run("issue", "piers.yaml", "--learners", "2", "--date", "2026-01-05", "--out", "numbered").exit_code == 0
    numbered = run("join", only_folder(Path("numbered")), "--name", "Kofi Mensah")
    assert numbered.exit_code == 2
    assert "--like" in numbered.output
