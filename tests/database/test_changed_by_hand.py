"""A record whose rows were changed by hand, with another program, is told to be so wherever it is read."""

from __future__ import annotations

import sqlite3
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from courseware.database.connection import writing
from courseware.database.errors import RecordFaulty, RecordRefuses
from courseware.database.history import history
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.learners import export_learner
from courseware.database.opening import open_record
from courseware.database.retention import keep, past
from courseware.database.scripts import enter_scripts, scripts_of
from courseware.database.sittings import sitting_of, sittings
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


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ("DROP TABLE decision", "no such table: decision"), ("ALTER TABLE mark DROP COLUMN why", "no such column"),
        ("DELETE FROM step WHERE number = 3", "duplicate column name: source"),
    ],
)  # fmt: skip
def test_tables_of_another_form_are_told_as_the_record_is_opened(entered, tmp_path, change: str, says: str) -> None:
    altered(tmp_path, change)
    with pytest.raises(RecordFaulty, match=rf"\({says}.*\): it has been changed by hand; put a copy in its place"):
        open_record(f"sqlite:///{tmp_path / 'record.sqlite'}")


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE sitting SET code = 'ZZZZ-ZZZZ'; UPDATE paper SET sitting = 'ZZZZ-ZZZZ'",
        "UPDATE paper SET issued = (SELECT issued FROM paper WHERE place = 0)",
    ],
)
def test_a_code_that_is_another_in_what_was_issued_is_told(entered, sitting, tmp_path, change: str) -> None:
    altered(tmp_path, change)
    [there] = sittings(entered)
    with pytest.raises(RecordFaulty, match=r"has another code .* it has been changed by hand"):
        sitting_of(entered, there.code)


@pytest.mark.parametrize("change", ["DELETE FROM sitting", "UPDATE paper SET sitting = 'ZZZZ-ZZZZ'"])
def test_rows_that_come_apart_while_a_record_is_open_are_told_too(entered, sitting, tmp_path, change: str) -> None:
    altered(tmp_path, change)
    with pytest.raises(RecordFaulty, match="rows of it that belong together do not: it has been changed by hand"):
        export_learner(entered, sitting.papers[0].code)


def altered(folder: Path, change: str) -> None:
    """Changes a record with another program: one that keeps no references, as SQLite does unless it is told to."""
    other = sqlite3.connect(folder / "record.sqlite")
    other.executescript(change)
    other.close()


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
