"""The sheet to print: every week with its Monday, what is new in it and what comes back."""

from __future__ import annotations

from courseware.course.scheme import Lesson
from courseware.course.scheme_sheet import scheme_sheet
from courseware.settings.settings import Settings
from tests.course.test_scheme_workbook import WEEKS

LESSONS = (
    Lesson(week=1, topic="piers", meeting=1, level=1, exercises=4),
    Lesson(week=3, topic="piers", meeting=2, level=None, exercises=1),
)


def test_each_week_has_a_row_an_empty_one_too() -> None:
    sheet = scheme_sheet(LESSONS, WEEKS[:3], {"piers": "Piers"}, Settings(name="Brookfield Trades College"))
    [_, weeks] = sheet.blocks
    assert weeks.table is not None
    assert weeks.table.rows == (
        ("1", "7 Sept 2026", "Piers (level 1, 4 exercises)", ""),
        ("2", "14 Sept 2026", "", "nothing to calculate: practical work, or what the class needs"),
        ("3", "21 Sept 2026", "", "Piers (1 exercise)"),
    )
    assert sheet.centre == "Brookfield Trades College"
    assert sheet.blocks[0].picture is not None
