"""Diagnostics at the start and at the end of a course, the same exercises, set side by side."""

from __future__ import annotations

from pathlib import Path

from openpyxl import load_workbook

from courseware.files.sitting_folders import read_folder
from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.marking_sheet import marking_sheet
from tests.commands.conftest import BANK, run

SECOND = BANK.split("exercises:\n")[1].replace("pier-length", "long-pier").replace("level: 1", "level: 2")


def diagnostic(date: str) -> list[Path]:
    asked = ("--group", "group-a.csv", "--date", date, "--seed", date, "--jobs", "1")
    done = run("issue", "piers.yaml", "--diagnostic", *asked)
    assert done.exit_code == 0, done.output
    return sorted(Path("output").glob(f"{date}*"))


def test_a_course_s_start_and_end_are_set_side_by_side(desk) -> None:
    Path("piers.yaml").write_text(BANK + SECOND, encoding="utf-8")
    start, end = diagnostic("2026-09-07"), diagnostic("2027-06-07")
    sittings = [read_folder(folder).sitting for folder in (*start, *end)]
    assert [one.title for one in sittings] == ["Diagnostic, level 1: Piers", "Diagnostic, level 2: Piers"] * 2
    exercises = [[exercise.exercise for exercise in one.papers[0].exercises] for one in sittings]
    assert exercises == [["pier-length"], ["long-pier"]] * 2
    codes = [paper.code for one in sittings for paper in one.papers]
    assert len(set(codes)) == len(codes)  # two levels of one typed seed too
    for one, other in zip(sittings[:2], sittings[2:], strict=True):
        for paper, later in zip(one.papers, other.papers, strict=True):
            assert paper.exercises[0].given != later.exercises[0].given
    for folder, sitting in zip((*start, *end), sittings, strict=True):
        (folder / "for-tutor/marking-sheet.xlsx").write_bytes(marking_sheet(sitting, invented_scripts(sitting)))
        assert run("mark", folder, "--jobs", "1").exit_code == 0
    done = run("distance", *start, *end)
    assert done.exit_code == 0, done.output
    assert "Diagnostic, level 1: Piers: " in done.output
    [table] = Path("output").glob("distance-travelled-*.xlsx")
    assert len(list(load_workbook(table)["Exercises"].iter_rows())) == 3
    alone = run("distance", start[0])
    assert alone.exit_code == 2
    assert "has no other with the same exercises" in alone.output


def test_a_diagnostic_takes_every_level_and_nothing_else(desk) -> None:
    done = run("issue", "piers.yaml", "--diagnostic", "--group", "group-a.csv", "--level", "1")
    assert done.exit_code == 2
    assert "--diagnostic goes with BANKs alone" in done.output
