"""The marking sheet as a tutor opens it: a row a paper, a column a part, every cell text."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pytest
from openpyxl import load_workbook

from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.marking_sheet import marking_sheet
from courseware.marking.marks import Script
from courseware.marking.part_kind import MARKING_KINDS


@pytest.fixture(scope="module")
def sitting(dealt):
    return dealt("opening_sizes", 3)


def opened(data: bytes):
    return load_workbook(BytesIO(data))


def test_every_paper_has_a_row_and_every_part_a_column(sitting) -> None:
    heads, *rows = opened(marking_sheet(sitting))["Answers"].iter_rows(max_row=4, values_only=True)
    assert heads == ("code", "name", "reference", "status", *(part.label for part in sitting.papers[0].parts))
    assert [row[:2] for row in rows] == [(paper.code, paper.learner.name) for paper in sitting.papers]
    assert not any(cell for row in rows for cell in row[3:])


def test_every_cell_to_type_in_is_text_so_that_half_stays_half(sitting) -> None:
    """A spreadsheet would make a date of 1/2. Spare rows below the last paper are text as well."""
    sheet = opened(marking_sheet(sitting))["Answers"]
    below = len(sitting.papers) + 2
    assert sheet.max_row >= below + 39
    cells = [cell for row in sheet.iter_rows(min_row=2, max_row=below + 39) for cell in row]
    assert {cell.number_format for cell in cells} == {"@"}


def test_codes_names_and_headings_stay_in_sight(sitting) -> None:
    assert opened(marking_sheet(sitting))["Answers"].freeze_panes == "E2"


def test_a_name_that_looks_like_a_formula_is_shown_as_text(sitting) -> None:
    first = sitting.papers[0]
    odd = replace(first, learner=replace(first.learner, name="=1+1"))
    cell = opened(marking_sheet(replace(sitting, papers=(odd, *sitting.papers[1:]))))["Answers"]["B2"]
    assert cell.data_type != "f"
    assert "=1+1" in cell.value


def test_the_other_sheets_say_what_may_be_written(sitting) -> None:
    book = opened(marking_sheet(sitting))
    assert book.sheetnames == ["Answers", "Decisions", "Parts", "Status"]
    assert [cell.value for cell in book["Decisions"][1]] == ["code", "part", "marks", "reason", "comment"]
    _, *parts = book["Parts"].iter_rows(values_only=True)
    assert [row[0] for row in parts] == [part.label for part in sitting.papers[0].parts]
    assert {row[5] for row in parts} == {MARKING_KINDS[part.kind].cell for part in sitting.papers[0].parts}
    assert sum(int(row[4]) for row in parts) == sum(part.marks for part in sitting.papers[0].parts)
    words = {row[0] or "" for row in book["Status"].iter_rows(min_row=2, values_only=True)}
    assert words == {"", "absent", "late", "resubmitted"}


def test_scripts_are_filled_in_at_their_own_papers(sitting) -> None:
    """Whatever the order they come in; a paper without a script stays blank."""
    code, label = sitting.papers[1].code, sitting.papers[1].parts[0].label
    data = marking_sheet(sitting, [Script(code=code, status="late", cells={label: "½ brick"})])
    rows = {row[0]: row[3:5] for row in opened(data)["Answers"].iter_rows(min_row=2, max_row=4, values_only=True)}
    assert rows[code] == ("late", "½ brick")
    assert {typed for other, row in rows.items() if other != code for typed in row} <= {None, ""}


def test_the_same_sitting_gives_the_same_bytes(sitting) -> None:
    assert marking_sheet(sitting) == marking_sheet(sitting)
    assert marking_sheet(sitting) != marking_sheet(sitting, invented_scripts(sitting))
