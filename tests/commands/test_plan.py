"""`courseware plan`, and a week's papers made from what the tutor left in the table."""

from __future__ import annotations

from pathlib import Path

import pytest
from openpyxl import load_workbook

from courseware.files.sitting_folders import read_folder
from tests.commands.conftest import only_folder, run

CENTRE = 'course: {starts: "2026-09-07", weeks: 9, topics: [piers.yaml]}\n'


def test_a_course_is_laid_out_changed_and_issued_from(desk) -> None:
    Path("centre.yaml").write_text(CENTRE, encoding="utf-8")
    done = run("plan")
    assert done.exit_code == 0, done.output
    assert "1 topic over 9 weeks, from 2026-09-07 to 2026-11-02:" in done.output
    assert "Nothing stands in week" in done.output
    table = Path("output/scheme-of-work.xlsx")
    book = load_workbook(table)
    book["Scheme of work"]["A2"] = 5
    book.save(table)
    done = run("issue", "--week", "5", "--group", "group-a.csv", "--jobs", "1")
    assert done.exit_code == 0, done.output
    sitting = read_folder(only_folder(Path("output"))).sitting
    assert sitting.title == "Week 5: Piers"
    assert [one.exercise for one in sitting.papers[0].exercises] == ["pier-length"]
    assert run("plan").exit_code == 2


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("plan",), "says nothing of your course; put a line into it such as"),
        (("issue", "--week", "5", "--learners", "2"), "there is no scheme of work"),
        (("issue", "piers.yaml", "--week", "5", "--learners", "2"), "--week takes banks, levels and exercises from your scheme"),
        (("issue", "piers.yaml", "--plan", "x.xlsx", "--learners", "2"), "--plan goes with --week"),
        (("issue", "--week", "61", "--learners", "2"), "61 is not in the range"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_told_in_a_line(desk, words, told) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert told in done.output
