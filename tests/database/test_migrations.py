"""The record's form, step by step: an earlier record keeps all that it holds."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import insert, inspect, text

from courseware.database.connection import connect, reading, stamp, writing
from courseware.database.errors import RecordFaulty
from courseware.database.kept_decisions import decisions_to_keep
from courseware.database.kept_marks import marks_of
from courseware.database.migrations import STEPS, Step, bring_up_to_date
from courseware.database.opening import open_record
from courseware.database.register import register_of
from courseware.database.sittings import sitting_of, sittings
from courseware.database.states import confirm, release, script_states
from courseware.database.tables import DECISION, FILE, METADATA, PAPER, SITTING
from tests.database.conftest import altered


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


@pytest.mark.each_database
def test_a_new_record_takes_every_step(database, later) -> None:
    engine = connect(database, make=True)
    assert bring_up_to_date(engine, later(1)) == len(STEPS)
    assert sittings(engine) == ()
    engine.dispose()


@pytest.mark.each_database
def test_a_record_from_before_the_sheets_of_decisions_were_noted_keeps_its_decisions(database, sitting, later) -> None:
    engine = connect(database, make=True)
    bring_up_to_date(engine, later(1), STEPS[:2])
    with writing(engine) as connection:
        common = {"title": "", "date": "2026-01-05", "class_name": "", "head": "{}", "taken_at": stamp(later(1))}
        connection.execute(SITTING.insert().values(code=sitting.code, **common))
        connection.execute(
            PAPER.insert().values(code=sitting.papers[0].code, sitting=sitting.code, place=0, issued="{}")
        )
        row = {"paper": sitting.papers[0].code, "label": "1a", "role": "first", "attempt": 1, "marks": 1, "comment": "",
               "reason": "method shown", "by": "J. Marsh", "at": stamp(later(2))}  # fmt: skip
        connection.execute(insert(DECISION).values(row))  # whose later column nobody names
    engine.dispose()
    record = open_record(database)
    [decided] = decisions_to_keep(record, sitting.code)
    record.dispose()
    assert (decided.decision.reason, decided.by, decided.source) == ("method shown", "J. Marsh", "")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ("DROP TABLE decision", "no such table: decision"), ("ALTER TABLE mark DROP COLUMN why", "no such column"),
        ("DELETE FROM step WHERE number >= 3", "duplicate column name: source"),
    ],
)  # fmt: skip
def test_tables_of_another_form_are_told_as_the_record_is_opened(entered, tmp_path, change: str, says: str) -> None:
    altered(tmp_path, change)
    with pytest.raises(RecordFaulty, match=rf"\({says}.*\): it has been changed by hand; put a copy in its place"):
        open_record(f"sqlite:///{tmp_path / 'record.sqlite'}")


@pytest.fixture
def old_record(tmp_path):
    """The record of the revision before the register: two sittings of four learners, three markers' work."""
    kept = Path(__file__).with_name("record_of_2026_12.sqlite")
    copy = tmp_path / "record.sqlite"
    copy.write_bytes(kept.read_bytes())
    with closing(sqlite3.connect(copy)) as connection:
        tables = ("sitting", "paper", "person", "script", "mark", "decision", "setting", "file")
        before = {table: connection.execute(f"SELECT * FROM {table} ORDER BY 1").fetchall() for table in tables}
    return f"sqlite:///{copy}", before


def test_a_record_from_before_the_register_steps_up_without_loss(old_record) -> None:
    url, before = old_record
    record = open_record(url)
    with reading(record) as connection:
        for table, rows in before.items():
            found = connection.exec_driver_sql(f"SELECT * FROM {table} ORDER BY 1").all()
            assert [tuple(row)[: len(rows[0])] for row in found] == rows, table
    assert {table: len(rows) for table, rows in before.items()} == {
        "sitting": 2, "paper": 8, "person": 9, "script": 7, "mark": 12, "decision": 3, "setting": 1, "file": 1,
    }  # fmt: skip
    first, again = (one.code for one in sittings(record))
    assert [(one.stands, one.attempt, one.by, len(one.retakes)) for one in register_of(record, first)] == [
        ("handed in", 1, "", 1), ("handed in", 1, "", 1), ("absent", 1, "", 0), ("handed in again", 1, "", 1),
    ]  # fmt: skip
    assert {(one.stands, one.attempt) for one in register_of(record, again)} == {("issued", 2)}
    assert [one.state for one in script_states(record, first)] == ["marked", "provisional", "marked"]
    assert [paper.total for paper in marks_of(record, first, "first")] == [3, 1, 0, 2, 3]
    record.dispose()
    open_record(url).dispose()  # once more: nothing left to do


def test_work_goes_on_in_a_record_that_stepped_up(old_record, later) -> None:
    record = open_record(old_record[0])
    first, _ = sittings(record)
    codes = [one.code for one in script_states(record, first.code) if one.state == "marked"]
    confirm(record, first.code, codes, by="J. Marsh", at=later(120))
    release(record, first.code, codes, by="J. Marsh", at=later(121))
    assert [one.state for one in script_states(record, first.code)] == ["released", "provisional", "released"]


@pytest.mark.parametrize(
    ("noted", "there", "now"),
    [
        (("{here}/a/sitting.json", "/apart/plan.pdf"), (), ("a/sitting.json", "/apart/plan.pdf")),
        (("/was/output/a/sitting.json", "/was/output/gone.pdf", "/apart/plan.pdf"), ("a/sitting.json",),
         ("a/sitting.json", "gone.pdf", "/apart/plan.pdf")),  # copied or moved whole
        (("/x/a/sitting.json", "/was/output/a/sitting.json", "/was/output/b/sitting.json"),
         ("a/sitting.json", "b/sitting.json"), ("/x/a/sitting.json", "a/sitting.json", "b/sitting.json")),
        (("{here}/b.pdf", "/was/output/a/sitting.json"), ("a/sitting.json", "b.pdf"),
         ("b.pdf", "/was/output/a/sitting.json")),  # written elsewhere: the record stands where it stood
        (("/was/output/a/sitting.json",), (), ("/was/output/a/sitting.json",)),
    ],
)  # fmt: skip
def test_files_are_noted_by_their_place_in_the_records_folder(tmp_path, later, noted, there, now) -> None:
    here = tmp_path.resolve()
    for name in there:
        (here / name).parent.mkdir(exist_ok=True)
        (here / name).write_text("{}", encoding="utf-8")
    engine = connect(f"sqlite:///{here}/record.sqlite", make=True)
    bring_up_to_date(engine, later(1), STEPS[:8])
    row = {"sha256": "0" * 64, "codes": "[]", "at": stamp(later(1))}
    with writing(engine) as connection:
        connection.execute(insert(FILE), [{**row, "path": path.format(here=here)} for path in noted])
    assert bring_up_to_date(engine, later(2)) == len(STEPS) - 8
    with reading(engine) as connection:
        assert tuple(connection.execute(FILE.select().order_by(FILE.c.id)).scalars(1)) == now
    engine.dispose()
