"""Rows that this program cannot have written are told as a record is opened, by their table."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from courseware.database.connection import writing
from courseware.database.errors import RecordFaulty
from courseware.database.opening import open_record
from courseware.database.scripts import enter_scripts
from courseware.marking.marks import Decision
from tests.database.conftest import altered


@pytest.mark.each_value
@pytest.mark.parametrize("value", [b"\xff\xfe", "-1", "1000001", "third"])
@pytest.mark.parametrize(
    "column",
    ["sitting.title", "sitting.taken_at", "script.role", "script.status", "script.line", "mark.how", "mark.marks",
     "mark.of", "mark.at", "decision.attempt", "decision.role", "person.name"],
)  # fmt: skip
def test_a_value_that_cannot_stand_in_its_column_is_told_as_the_record_is_opened(
    entered, sitting, tmp_path, column: str, value: str | bytes
) -> None:
    table, name = column.split(".")
    decided = Decision(code=sitting.papers[0].code, label="1a", marks=1, reason="method shown")
    more = {"assessor": "J. Marsh", "role": "first", "source": "x.xlsx", "at": datetime(2026, 1, 6, tzinfo=UTC)}
    enter_scripts(entered, sitting.code, [], [decided], **more)
    with writing(entered) as connection:
        connection.exec_driver_sql(f'UPDATE {table} SET "{name}" = ?', (value,))
    typed_or_told = isinstance(value, bytes) or name in {"role", "status", "how", "line", "marks", "of", "attempt"}
    url = f"sqlite:///{tmp_path / 'record.sqlite'}"
    if typed_or_told:
        with pytest.raises(RecordFaulty, match=f"its table `{table}` holds what this program did not write"):
            open_record(url)
    else:
        open_record(url).dispose()


@pytest.mark.parametrize(
    ("change", "table"),
    [
        ("UPDATE sitting SET code = 'ZZZZ-ZZZZ'", "paper"), ("UPDATE paper SET sitting = 'ZZZZ-ZZZZ'", "paper"),
        ("DELETE FROM sitting", "paper"), ("DELETE FROM paper WHERE place = 0", "decision"),
        ("UPDATE person SET paper = 'nobody'", "person"), ("UPDATE script SET paper = 'nobody'", "script"),
        ("UPDATE decision SET paper = 'nobody'", "decision"), ("UPDATE mark SET script = 99", "mark"),
        ("DELETE FROM script", "mark"),
    ],
)  # fmt: skip
def test_a_row_that_belongs_to_none_is_told_as_the_record_is_opened(
    entered, sitting, later, tmp_path, change: str, table: str
) -> None:
    more = {"assessor": "J. Marsh", "role": "first", "source": "x.xlsx", "at": later(3)}
    remark = Decision(code=sitting.papers[0].code, label="1a", marks=1, reason="method shown")
    enter_scripts(entered, sitting.code, [], [remark], **more)
    altered(tmp_path, change)
    with pytest.raises(RecordFaulty, match=rf"record\.sqlite: a row of its table `{table}` .* put a copy in its place"):
        open_record(f"sqlite:///{tmp_path / 'record.sqlite'}")


@pytest.mark.parametrize(("marks", "opens"), [(999_999, True), (1_000_000, True), (1_000_001, False), (0, True)])
def test_what_is_counted_has_an_end(entered, tmp_path, marks: int, opens: bool) -> None:
    with writing(entered) as connection:
        connection.exec_driver_sql("UPDATE mark SET marks = ?", (marks,))
    url = f"sqlite:///{tmp_path / 'record.sqlite'}"
    if opens:
        open_record(url).dispose()
    else:
        with pytest.raises(RecordFaulty):
            open_record(url)
