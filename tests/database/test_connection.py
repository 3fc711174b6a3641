"""The record's database: made for its owner alone, refused where none can be, written whole or not at all."""

from __future__ import annotations

import os
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

from courseware.database import connection
from courseware.database.connection import reading, squeeze, stamp, writing
from courseware.database.errors import RecordFaulty, RecordRefuses
from courseware.database.opening import open_record
from courseware.database.retention import kept
from courseware.database.tables import SETTING
from tests.conftest import PRAGMAS


def test_its_connections_keep_what_they_were_told(record, monkeypatch) -> None:
    monkeypatch.setattr(connection, "_PRAGMAS", PRAGMAS)
    with reading(record) as opened:
        told = {
            name: opened.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys", "secure_delete", "busy_timeout")
        }
    # synchronous 2 is FULL: SQLite's own documentation of its pragmas
    assert told == {
        "journal_mode": "delete",
        "synchronous": 2,
        "foreign_keys": 1,
        "secure_delete": 1,
        "busy_timeout": 30000,
    }


def test_a_record_is_not_made_by_looking(tmp_path) -> None:
    with pytest.raises(RecordRefuses, match=r"there is no record at .*record take"):
        open_record(f"sqlite:///{tmp_path}/record.sqlite", make=False)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("address", "says"),
    [
        ("sqlite://", "a record in memory is lost"),
        ("sqlite:///:memory:", "a record in memory is lost"),
        ("not an address", "is not a database URL"),
        ("nosuch://x/y", "is not a database URL"),
        ("sqlite:////dev/null/record.sqlite", "cannot be made"),
        ("sqlite:////dev", "cannot be opened"),
        ("sqlite:///%00x", "holds a character that no file name has"),
        ("sqlite:///x?timeout=²", "says more than where the file is"),
        ("sqlite+pysqlite+x:///x", "is not a driver for a record"),
        ("sqlite+json:///x", "is not a"),
        ("sqlite+aiosqlite:///x", "is not a driver for a record"),
        ("mysql+reflection://x", "is not a database URL"),
        ("oracle+types://x", "is not a database URL"),
        ("postgresql+_psycopg_common://x", "is not a database URL"),
    ],
)
def test_an_address_that_leads_nowhere_is_told(address, says, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(RecordFaulty, match=says):
        open_record(address)
    assert list(tmp_path.iterdir()) == [], "no stray file is left"


@pytest.mark.parametrize(
    "address",
    [
        "file/record.sqlite", "file/new/record.sqlite",  # a file is in the way of its folder
        "new/../../proc/x", "new/../file/x", "new/deep/../../record.sqlite",  # up from a folder that is not there
        "/proc/x", "/proc/new/x", "/proc/self/new/x", "/sys/x", "/dev/null/x", "/dev/null", "/dev/full",
        "nowhere/record.sqlite", "folder", "folder/", "new/" + "n" * 300, "new/deep/" + "n" * 300, "n" * 300,
        "locked/record.sqlite", "locked/new/record.sqlite", "unread/record.sqlite",
    ],
)  # fmt: skip
def test_a_place_where_no_record_can_be_leaves_nothing_behind(address: str, tmp_path, monkeypatch) -> None:
    Path(tmp_path, "own").mkdir()
    monkeypatch.chdir(tmp_path / "own")
    Path("file").write_text("of somebody")
    Path("folder").mkdir()
    Path("nowhere").symlink_to("nobody")
    Path("locked").mkdir(0o500)
    Path("unread").mkdir(0o000)
    if address.startswith(("locked", "unread")) and os.access("locked", os.W_OK):
        pytest.skip("the administrator may write anywhere")
    before = sorted(tmp_path.rglob("*"))
    try:
        with pytest.raises(RecordFaulty, match=r"cannot be (made|opened)"):
            open_record(f"sqlite:///{address}")
        assert sorted(tmp_path.rglob("*")) == before
    finally:
        Path("unread").chmod(0o700)


def test_a_folder_that_somebody_writes_into_meanwhile_is_left(tmp_path, monkeypatch) -> None:
    def refuse(file: Path, *_: object) -> int:
        Path(file).with_name("a letter").write_text("Dear all")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("courseware.database.connection.os.open", refuse)
    with pytest.raises(RecordFaulty, match="No space left"):
        open_record(f"sqlite:///{tmp_path}/new/record.sqlite")
    assert [path.name for path in tmp_path.rglob("*")] == ["new", "a letter"]


def test_a_damaged_record_is_told_at_opening(record) -> None:
    file = Path(str(record.url.database))
    data = bytearray(file.read_bytes())
    for place in range(4096, len(data), 4096):  # every page but the first
        data[place : place + 200] = b"\xff" * 200
    file.write_bytes(data)
    with pytest.raises(RecordFaulty, match="damaged"):
        open_record(f"sqlite:///{file}")


def test_a_write_that_fails_leaves_nothing_of_itself(record) -> None:
    def half(months: str) -> None:
        with writing(record) as connection:
            connection.execute(SETTING.insert().values(kind="names", months=3, by="x", at="y"))
            int(months)

    with pytest.raises(ValueError, match="three"):
        half("three")
    assert kept(record)["names"] is None


def test_a_record_that_another_holds_is_told(record, sitting, monkeypatch) -> None:
    from courseware.database import connection as own
    from courseware.database.connection import writing

    monkeypatch.setattr(own, "PATIENCE", 0.1)
    other = open_record(record.url)
    with writing(record), pytest.raises(RecordFaulty, match="another program has been writing to it"), writing(other):
        raise AssertionError


def test_a_time_is_kept_in_utc_to_the_microsecond() -> None:
    """So that times sort as texts: ISO 8601, always as long."""
    here = timezone(timedelta(hours=1))
    assert stamp(datetime(2026, 1, 5, 10, 0, tzinfo=here)) == "2026-01-05T09:00:00.000000+00:00"


def test_nothing_deleted_is_left_in_the_file_once_it_is_squeezed(record) -> None:
    file = Path(str(record.url.database))
    with writing(record) as connection:
        connection.execute(
            SETTING.insert(), [{"kind": "names", "months": n, "by": "x" * 500, "at": "y"} for n in range(99)]
        )
    large = file.stat().st_size
    with writing(record) as connection:
        connection.execute(SETTING.delete())
    squeeze(record)
    assert file.stat().st_size < large
    assert b"x" * 500 not in file.read_bytes()
