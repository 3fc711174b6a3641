"""A learner's level from a class list: 1, 2 or 3 as colleges write it, and anything else told by row and column."""

from __future__ import annotations

import pytest

from courseware.papers.levels import level_column, level_faults, level_in
from courseware.spreadsheets.rows import Row


@pytest.mark.parametrize(
    ("headings", "column"),
    [
        (["Name", "Level"], 1),
        (["Learner level", "Name"], 0),
        (["Name", "STUDENT-LEVEL"], 1),
        (["Name", "Paper level", "Level"], 1),  # the first
        (["Name", "Level of study"], None),
        (["Name", "Levels"], None),
        ([], None),
    ],
)
def test_the_column_is_known_by_its_heading(headings, column) -> None:
    assert level_column(headings) == column


@pytest.mark.parametrize("cell", ["2", " 2 ", "L2", "l 2", "Lvl 2", "Level 2", "LEVEL2"])
def test_a_level_as_colleges_write_it(cell: str) -> None:
    assert level_in(cell) == 2


@pytest.mark.parametrize("cell", ["", "0", "4", "22", "two", "2.0", "2/3", "Level 2 Diploma", "NVQ 2", "-2", "２", "²"])
def test_anything_else_is_no_level(cell: str) -> None:
    assert level_in(cell) is None


@pytest.mark.parametrize(
    ("cell", "told"),
    [
        ("3", []),
        ("4", ["a.csv:7:3: `4` is not a level; expected 1, 2 or 3: a paper's level"]),
        (" ", ["a.csv:7:3: no level stands in this row; expected 1, 2 or 3: a paper's level"]),
        ("\x1b", ["a.csv:7:3: `<U+001B>` is not a level; expected 1, 2 or 3: a paper's level"]),
    ],
)
def test_what_is_wrong_is_told_by_row_and_column(cell, told) -> None:
    row = Row(line=7, cells=("Amara", "x", cell))
    assert [str(fault) for fault in level_faults(row, 2, "a.csv")] == told
