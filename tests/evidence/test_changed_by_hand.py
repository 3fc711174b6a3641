"""A record whose rows were changed by hand, with another program, is told to be so wherever it is read."""

from __future__ import annotations

import pytest

from courseware.evidence.connection import writing
from courseware.evidence.kept_marks import keep_marks, marks_of
from courseware.evidence.refusals import RecordRefuses
from courseware.evidence.scripts import enter_scripts, scripts_of
from courseware.evidence.sittings import sitting_of
from courseware.papers.record import RecordFaulty


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
