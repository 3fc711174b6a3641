"""A job's workbooks, opened again."""

from __future__ import annotations

from io import BytesIO
from zipfile import ZipFile

import openpyxl
import pytest

from courseware.jobs.plan import plan_of
from courseware.jobs.workbooks import observation_workbook, stores_workbook
from courseware.workflows.jobs import find_job
from tests.jobs.a_panel import job


def test_the_observation_workbook_says_pass_or_fail_once_a_figure_is_typed() -> None:
    """The formula is read back: nothing typed says nothing, within the deviation passes, beyond it fails."""
    plan = plan_of(find_job("porch-panel"))
    sheet = openpyxl.load_workbook(BytesIO(observation_workbook(plan, "2026-01-05"))).worksheets[0]
    for row, line in enumerate(plan.lines, 2):
        assert (sheet.cell(row, 2).value, sheet.cell(row, 3).value) == (line.target, line.allowed)
        assert sheet.cell(row, 4).value is None
        assert sheet.cell(row, 5).value == f'=IF(ISNUMBER(D{row}),IF(ABS(D{row}-B{row})<=C{row},"pass","fail"),"")'


def test_the_order_as_a_workbook_has_figures_that_can_be_added() -> None:
    """A line an item: for one bay where it is ordered by the bay, for all three, and its unit. 265 bricks by hand."""
    sheet = openpyxl.load_workbook(BytesIO(stores_workbook(job(), "2026-01-05"))).worksheets[0]
    headings, *rows = sheet.iter_rows(values_only=True)
    assert headings == ("item", "one bay", "3 bays", "unit")
    lines = {what: (one, all_bays, unit) for what, one, all_bays, unit in rows}
    assert lines["Bricks in the wall around the opening"] == (132, 396, "bricks")
    assert lines["Cement for a mix of 1:5, bags of 25 kg"] == (None, 4, "bags")
    bricks = [name for name in lines if name.startswith("Bricks") and "order" not in name]
    assert sum(lines[name][0] for name in bricks) == 265
    assert not any(name.startswith(" ") for name in lines)


@pytest.mark.parametrize("write", [stores_workbook, observation_workbook])
def test_the_same_plan_and_date_give_the_same_bytes(write) -> None:
    assert write(job(), "2026-01-05") == write(job(), "2026-01-05")
    assert write(job(), "2026-01-05") != write(
        job(("bays: 3", "bays: 4"), ("projects: 25", "projects: 20")), "2026-01-05"
    )
    assert write(job(), "2026-01-05") != write(job(), "2026-01-06")


def test_the_observation_workbook_names_whose_tolerances_they_are() -> None:
    sheet = openpyxl.load_workbook(BytesIO(observation_workbook(job(), "2026-01-05"))).worksheets[0]
    assert sheet.cell(sheet.max_row, 1).value.startswith("Tolerances: NHBC Standards 2011 (")


@pytest.mark.parametrize("write", [stores_workbook, observation_workbook])
def test_a_workbook_is_dated_by_the_job_not_by_the_clock(write) -> None:
    """So that its bytes are the same whenever it is made."""
    data = write(job(), "2026-01-05")
    properties = openpyxl.load_workbook(BytesIO(data)).properties
    assert {properties.created.date().isoformat(), properties.modified.date().isoformat()} == {"2026-01-05"}
    with ZipFile(BytesIO(data)) as zipped:
        assert {one.date_time[:3] for one in zipped.infolist()} == {(1980, 1, 1)}
