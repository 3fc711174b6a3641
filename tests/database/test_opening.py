"""A record is opened with care: made for its owner alone, checked, brought up to date; what is none is refused."""

from __future__ import annotations

import sqlite3
import stat

import pytest

from courseware.database.errors import RecordFaulty
from courseware.database.opening import open_record
from courseware.database.sittings import sitting_of


def test_a_new_record_is_its_owners_alone(tmp_path) -> None:
    open_record(f"sqlite:///{tmp_path}/new/record.sqlite")
    assert stat.S_IMODE((tmp_path / "new/record.sqlite").stat().st_mode) == 0o600


def test_any_sqlite_address_opens_the_same_record(record, sitting) -> None:
    file = record.url.database
    for address in (f"sqlite+pysqlite:///{file}", f"sqlite:///{file}?timeout=5"):
        assert sitting_of(open_record(address), sitting.code) == sitting


def test_a_file_that_is_no_database_is_left_alone(tmp_path) -> None:
    file = tmp_path / "letter.txt"
    file.write_text("Dear all, " * 1000)
    with pytest.raises(RecordFaulty, match="is not a record of this program"):
        open_record(f"sqlite:///{file}")
    assert file.read_text() == "Dear all, " * 1000


def test_a_database_of_something_else_is_left_alone(tmp_path) -> None:
    file = tmp_path / "other.sqlite"
    with sqlite3.connect(file) as other:
        other.execute("CREATE TABLE bookings (day TEXT)")
    other.close()
    before = file.read_bytes()
    with pytest.raises(RecordFaulty, match="holds something other than a record"):
        open_record(f"sqlite:///{file}")
    assert file.read_bytes() == before
