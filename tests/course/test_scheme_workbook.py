"""The table that a tutor changes, written and read again; a table that cannot be meant is refused by its row."""

from __future__ import annotations

from datetime import date
from io import BytesIO

import pytest
from openpyxl import Workbook, load_workbook

from courseware.course.scheme import Lesson, lay, teaching_weeks
from courseware.course.scheme_workbook import read_scheme, scheme_workbook
from courseware.spreadsheets.rows import TableFaulty
from tests.course.test_scheme import topics

DAY = "2026-09-01"
WEEKS = teaching_weeks(date(2026, 9, 7), 12, set())
TITLES = {topic.named: topic.title for topic in topics(3)}


def table(*rows: tuple[object, ...], headings: tuple[str, ...] = ("Week", "Topic", "Level", "Exercises")) -> bytes:
    book = Workbook()
    for row in (headings, *rows):
        book.active.append(row)
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def faults(data: bytes) -> list[str]:
    with pytest.raises(TableFaulty) as faulty:
        read_scheme(data, "plan.xlsx")
    return [str(fault) for fault in faulty.value.faults]


def test_what_is_written_is_read_as_it_was() -> None:
    lessons = lay(topics(3), 12)
    assert read_scheme(scheme_workbook(lessons, WEEKS, TITLES, DAY), "plan.xlsx") == lessons


def test_the_table_says_when_each_week_begins_and_what_the_topic_is_called() -> None:
    data = scheme_workbook(lay(topics(3), 12), WEEKS, TITLES, DAY)
    rows = list(load_workbook(BytesIO(data))["Scheme of work"].iter_rows(values_only=True))
    assert rows[0][:7] == ("week", "from", "what", "meeting", "topic", "level", "exercises")
    assert rows[1][:7] == (1, "2026-09-07", "Topic 1", "new", "topic-1", 1, 4)
    assert data == scheme_workbook(lay(topics(3), 12), WEEKS, TITLES, DAY)


def test_rows_may_be_changed_added_and_put_in_another_order() -> None:
    data = table((5, "piers", 2, 3), (1, "piers", "", 6), (2, "bonds.yaml", "Level 3", "1"))
    assert read_scheme(data, "plan.xlsx") == (
        Lesson(week=5, topic="piers", meeting=1, level=2, exercises=3),
        Lesson(week=1, topic="piers", meeting=2, level=None, exercises=6),
        Lesson(week=2, topic="bonds.yaml", meeting=1, level=3, exercises=1),
    )


def test_a_csv_will_do() -> None:
    [lesson] = read_scheme(b"week,topic,level,exercises\n60,piers,,40\n", "plan.csv")
    assert (lesson.week, lesson.exercises) == (60, 40)


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ((0, "piers", 1, 2), "plan.xlsx:2:1: `0` stands under week; expected a number from 1 to 60"),
        ((61, "piers", 1, 2), "plan.xlsx:2:1: `61` stands under week"),
        (("soon", "piers", 1, 2), "plan.xlsx:2:1: `soon` stands under week"),
        ((1, "", 1, 2), "plan.xlsx:2:2: no topic stands in this row"),
        ((1, "p" * 301, 1, 2), "plan.xlsx:2:2: no topic stands in this row"),
        ((1, "piers", 4, 2), "plan.xlsx:2:3: `4` is not a level; expected 1, 2 or 3, or nothing for every level"),
        ((1, "piers", 1, 41), "plan.xlsx:2:4: `41` stands under exercises; expected a number from 1 to 40"),
        ((1, "piers", 1, ""), "plan.xlsx:2:4: `` stands under exercises"),
    ],
)
def test_each_fault_is_told_by_row_and_column(row: tuple[object, ...], told: str) -> None:
    assert faults(table(row))[0].startswith(told)


def test_a_table_that_is_no_scheme_is_refused_in_a_line() -> None:
    assert "this is no scheme of work: its headings are only `Name`" in faults(table(headings=("Name",)))[0]
    assert "no row stands below the headings" in faults(table())[0]
    twice = table(headings=("Week", "Topic", "Level", "Exercises", "week"))
    assert "the heading `week` stands twice" in faults(twice)[0]


def test_all_rows_are_told_at_once_up_to_fifty() -> None:
    assert len(faults(table(*[(0, "piers", 1, 2)] * 60))) == 50
