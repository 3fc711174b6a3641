"""A record is opened with care: made for its owner alone, checked, brought up to date; what is none is refused."""

from __future__ import annotations

import os
import sqlite3
import stat
from pathlib import Path

import pytest
from sqlalchemy import inspect, text

from courseware.database.connection import connect, reading, stamp, writing
from courseware.database.errors import RecordFaulty, RecordRefuses
from courseware.database.kept_decisions import decisions_to_keep
from courseware.database.migrations import STEPS, Step, bring_up_to_date
from courseware.database.opening import open_record
from courseware.database.retention import kept
from courseware.database.sittings import sitting_of, sittings, take
from courseware.database.tables import METADATA, SETTING
from courseware.papers.sitting_file import write_sitting


def test_a_new_record_is_its_owners_alone(tmp_path) -> None:
    open_record(f"sqlite:///{tmp_path}/new/record.sqlite")
    assert stat.S_IMODE((tmp_path / "new/record.sqlite").stat().st_mode) == 0o600


def test_its_connections_keep_what_they_were_told(record) -> None:
    with reading(record) as connection:
        told = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
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


def test_any_sqlite_address_opens_the_same_record(record, sitting) -> None:
    file = record.url.database
    for address in (f"sqlite+pysqlite:///{file}", f"sqlite:///{file}?timeout=5"):
        assert sitting_of(open_record(address), sitting.code) == sitting


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


def test_a_damaged_record_is_told_at_opening(record) -> None:
    file = Path(str(record.url.database))
    data = bytearray(file.read_bytes())
    for place in range(4096, len(data), 4096):  # every page but the first
        data[place : place + 200] = b"\xff" * 200
    file.write_bytes(data)
    with pytest.raises(RecordFaulty, match="damaged"):
        open_record(f"sqlite:///{file}")


def test_the_steps_make_the_tables_as_they_are_now(record) -> None:
    found = inspect(record)
    assert set(found.get_table_names()) == set(METADATA.tables)
    for name, table in METADATA.tables.items():
        assert [column["name"] for column in found.get_columns(name)] == [column.name for column in table.columns], name
        assert {tuple(index["column_names"]) for index in found.get_indexes(name)} == {
            tuple(column.name for column in index.columns) for index in table.indexes
        }, name


def test_the_first_step_makes_what_it_always_made(tmp_path, later, same_text) -> None:
    """Records of this form are in use: where this text would change, a step is wanted (see `steps`)."""
    engine = connect(f"sqlite:///{tmp_path}/record.sqlite", make=True)
    bring_up_to_date(engine, later(1), STEPS[:1])
    with reading(engine) as connection:
        made = connection.exec_driver_sql("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name").scalars()
        text_now = "".join(f"{sql.strip()};\n".replace(" \n", "\n") for sql in made)
    same_text(Path(__file__).with_name("first_form.sql"), text_now)


def test_a_record_of_a_later_version_is_refused_and_left_alone(record, later) -> None:
    bring_up_to_date(record, later(1), (*STEPS, Step(says="one more", take=lambda _: None)))
    before = Path(str(record.url.database)).read_bytes()
    with pytest.raises(RecordFaulty, match="written by a later version of this program; bring the program up to date"):
        open_record(record.url)
    assert Path(str(record.url.database)).read_bytes() == before


def add_colour(connection) -> None:
    connection.execute(text("ALTER TABLE setting ADD COLUMN colour TEXT"))


def fail_half_way(connection) -> None:
    connection.execute(text("ALTER TABLE setting ADD COLUMN shape TEXT"))
    connection.execute(text("DELETE FROM person"))
    connection.execute(text("ALTER TABLE elsewhere ADD COLUMN shape TEXT"))


def test_an_earlier_record_takes_the_steps_it_has_not_had_and_keeps_all_it_holds(record, sitting, later) -> None:
    steps = (*STEPS, Step(says="a colour", take=add_colour))
    assert bring_up_to_date(record, later(1), steps) == 1
    assert bring_up_to_date(record, later(2), steps) == 0
    assert "colour" in [column["name"] for column in inspect(record).get_columns("setting")]
    assert sitting_of(record, sitting.code) == sitting


def test_a_step_that_fails_leaves_the_record_as_the_step_before_left_it(record, sitting, later) -> None:
    steps = (*STEPS, Step(says="a colour", take=add_colour), Step(says="fails", take=fail_half_way))
    with pytest.raises(RecordFaulty, match=r"\(no such table: elsewhere\): it has been changed by hand"):
        bring_up_to_date(record, later(1), steps)
    columns = [column["name"] for column in inspect(record).get_columns("setting")]
    assert ("colour" in columns, "shape" in columns) == (True, False)
    assert sitting_of(record, sitting.code) == sitting
    assert bring_up_to_date(record, later(2), steps[:-1]) == 0


def test_a_new_record_takes_every_step(tmp_path, later) -> None:
    engine = connect(f"sqlite:///{tmp_path}/record.sqlite", make=True)
    assert bring_up_to_date(engine, later(1)) == len(STEPS)
    assert sittings(engine) == ()


def test_a_write_that_fails_leaves_nothing_of_itself(record) -> None:
    def half(months: str) -> None:
        with writing(record) as connection:
            connection.execute(SETTING.insert().values(kind="names", months=3, by="x", at="y"))
            int(months)

    with pytest.raises(ValueError, match="three"):
        half("three")
    assert kept(record)["names"] is None


def test_a_record_from_before_the_sheets_of_decisions_were_noted_keeps_its_decisions(tmp_path, sitting, later) -> None:
    url = f"sqlite:///{tmp_path}/record.sqlite"
    engine = connect(url, make=True)
    bring_up_to_date(engine, later(1), STEPS[:2])
    take(engine, sitting, write_sitting(sitting), at=later(1))
    row = (sitting.papers[0].code, "1a", "first", 1, 1, "method shown", "", "J. Marsh", stamp(later(2)))
    columns = 'paper, label, role, attempt, marks, reason, comment, "by", at'
    with writing(engine) as connection:
        connection.exec_driver_sql(f"INSERT INTO decision ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", row)
    [decided] = decisions_to_keep(open_record(url), sitting.code)
    assert (decided.decision.reason, decided.by, decided.source) == ("method shown", "J. Marsh", "")
