"""A record whose rows were changed by hand, with another program, is told to be so wherever it is read."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from courseware.database.connection import writing
from courseware.database.errors import RecordFaulty, RecordRefuses
from courseware.database.history import history
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.opening import open_record
from courseware.database.retention import keep, past
from courseware.database.scripts import enter_scripts, scripts_of
from courseware.database.sittings import sitting_of
from courseware.marking.marks import Decision


@pytest.fixture
def entered(record, sitting, later, written, marked):
    """A record with a script and its marks."""
    paper = sitting.papers[0]
    script = written(paper, "1", "2")
    enter_scripts(record, sitting.code, [script], [], assessor="J. Marsh", role="first", source="x.xlsx", at=later(1))
    keep_marks(record, sitting.code, [marked(paper)], by="J. Marsh", role="first", at=later(2))
    return record


@pytest.mark.parametrize(
    ("table", "column", "value"),
    [
        ("paper", "issued", "not JSON"), ("paper", "issued", "[]"), ("paper", "issued", "7"), ("paper", "issued", "{}"),
        ("sitting", "head", "{"), ("sitting", "head", "[1]"), ("sitting", "head", "{}"), ("sitting", "head", "null"),
        ("script", "attempt", "second"), ("script", "cells", "x"), ("script", "cells", "[]"), ("script", "unread", "7"),
        ("mark", "slips", "x"), ("mark", "slips", "{}"),
    ],
)  # fmt: skip
def test_a_row_that_this_program_cannot_have_written(entered, sitting, table: str, column: str, value: str) -> None:
    with writing(entered) as connection:
        connection.exec_driver_sql(f'UPDATE {table} SET "{column}" = ?', (value,))

    def read_all() -> None:
        sitting_of(entered, sitting.code)
        scripts_of(entered, sitting.code, "first")
        marks_of(entered, sitting.code, "first")

    with pytest.raises((RecordFaulty, RecordRefuses)):
        read_all()


def test_a_record_as_written_is_read(entered, sitting) -> None:
    assert sitting_of(entered, sitting.code) == sitting
    assert scripts_of(entered, sitting.code, "first")
    assert marks_of(entered, sitting.code, "first")


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


@pytest.mark.parametrize(
    ("table", "column", "value"),
    [
        ("sitting", "taken_at", "yesterday"), ("sitting", "taken_at", "2026-02-31T09:00:00+00:00"),
        ("script", "at", "2026-01-05T09:00:00"), ("mark", "at", ""), ("mark", "slips", "[1]"),
        ("mark", "slips", '[["a", 2]]'), ("script", "cells", '{"1a": 7}'), ("script", "unread", '{"1a": null}'),
    ],
)  # fmt: skip
def test_a_history_of_times_and_texts_that_are_none(entered, sitting, table: str, column: str, value: str) -> None:
    with writing(entered) as connection:
        connection.exec_driver_sql(f'UPDATE {table} SET "{column}" = ?', (value,))
    with pytest.raises(RecordFaulty):
        history(entered, sitting.papers[0].code)


def test_a_sittings_date_that_is_none(entered, sitting, later) -> None:
    keep(entered, "scripts", 1, by="J. Marsh", at=later(3))
    with writing(entered) as connection:
        connection.exec_driver_sql("UPDATE sitting SET date = '5 May'")
    with pytest.raises(RecordFaulty, match="`5 May` for a date"):
        past(entered, date(2030, 1, 1))
