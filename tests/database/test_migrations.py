"""The record's form, step by step: an earlier record keeps all that it holds."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import inspect, text

from courseware.database.connection import connect, reading, stamp, writing
from courseware.database.errors import RecordFaulty
from courseware.database.kept_decisions import decisions_to_keep
from courseware.database.migrations import STEPS, Step, bring_up_to_date
from courseware.database.opening import open_record
from courseware.database.sittings import sitting_of, sittings, take
from courseware.database.tables import METADATA
from courseware.papers.sitting_file import write_sitting
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


def test_a_new_record_takes_every_step(tmp_path, later) -> None:
    engine = connect(f"sqlite:///{tmp_path}/record.sqlite", make=True)
    assert bring_up_to_date(engine, later(1)) == len(STEPS)
    assert sittings(engine) == ()


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
