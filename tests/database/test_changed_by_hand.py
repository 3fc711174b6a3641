"""A record whose rows were changed by hand, with another program, is told to be so wherever it is read."""

from __future__ import annotations

from datetime import date

import pytest

from courseware.database.connection import writing
from courseware.database.errors import RecordFaulty, RecordRefuses
from courseware.database.history import history
from courseware.database.kept_marks import marks_of
from courseware.database.learners import export_learner
from courseware.database.retention import keep, past
from courseware.database.scripts import scripts_of
from courseware.database.sittings import sitting_of, sittings
from tests.database.conftest import altered


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
