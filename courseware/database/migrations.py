"""The record's form brought up to date: small numbered steps, in order, each whole or not at all.

To change the form: copy the tables concerned from `tables` into the step that made them, so that every step goes on
making what it always made; then change `tables` and add a step that alters a record of the form before.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import (
    Column,
    Connection,
    Engine,
    ForeignKey,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    func,
    insert,
    inspect,
    select,
    text,
    update,
)
from sqlalchemy.schema import CreateColumn

from courseware.database import tables
from courseware.database.connection import stamp, writing
from courseware.database.errors import RecordFaulty, shown_address
from courseware.database.written_files import folder_of_record, kept_path


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What one step does to a record that has had all the steps before it."""

    says: str
    take: Callable[[Connection], None]


_FIRST_DECISION = Table(
    "decision", MetaData(),
    Column("id", Integer, primary_key=True),
    Column("paper", String(16), ForeignKey(tables.PAPER.c.code), nullable=False, index=True),
    Column("label", String(40), nullable=False),
    Column("role", String(20), nullable=False),
    Column("attempt", Integer, nullable=False),
    Column("marks", Integer),
    Column("reason", Text, nullable=False),
    Column("comment", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip


_FIRST_OBSERVATION = Table(
    "observation", MetaData(),
    Column("id", Integer, primary_key=True),
    Column("paper", String(16), ForeignKey(tables.PAPER.c.code), nullable=False, index=True),
    Column("job", Text, nullable=False),
    Column("title", Text, nullable=False),
    Column("bay", Text, nullable=False),
    Column("day", String(10), nullable=False),
    Column("profile", Text, nullable=False),
    Column("results", tables.LONG, nullable=False),
    Column("photos", tables.LONG, nullable=False),
    Column("remark", Text, nullable=False),
    Column("learner_remark", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip


_FIRST_GIVEN_MARK = Table(
    "given_mark", MetaData(),
    Column("id", Integer, primary_key=True),
    Column("paper", String(16), ForeignKey(tables.PAPER.c.code), nullable=False, index=True),
    Column("attempt", Integer, nullable=False),
    Column("label", String(40), nullable=False),
    Column("purpose", String(20), nullable=False),
    Column("marks", Integer, nullable=False),
    Column("note", Text, nullable=False),
    Column("written", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip


_FIRST = (tables.STEP, tables.SITTING, tables.PAPER, tables.PERSON, tables.SCRIPT, tables.MARK, tables.SETTING)


def _first_tables(connection: Connection) -> None:
    tables.METADATA.create_all(connection, tables=_FIRST)
    _FIRST_DECISION.create(connection, checkfirst=True)


def _files_written(connection: Connection) -> None:
    tables.METADATA.create_all(connection, tables=[tables.FILE])


def _sheets_of_decisions(connection: Connection) -> None:
    _add(connection, tables.DECISION.c.source)


def _observations_withdrawn(connection: Connection) -> None:
    _add(connection, tables.OBSERVATION.c.withdrawn)


def _marks_by_hand_withdrawn(connection: Connection) -> None:
    _add(connection, tables.GIVEN_MARK.c.withdrawn)


def _add(connection: Connection, column: Column[Any]) -> None:
    made = CreateColumn(column).compile(dialect=connection.dialect)
    connection.execute(text(f"ALTER TABLE {column.table.name} ADD {made}"))


def _cells_typed_otherwise(connection: Connection) -> None:
    tables.METADATA.create_all(connection, tables=[tables.TYPED_OTHERWISE])


def _register_of_issues(connection: Connection) -> None:
    """Papers issued before the register was kept stand in it from when their sitting was taken in."""
    tables.METADATA.create_all(connection, tables=[tables.REGISTER])
    sittings = {row.code: row for row in connection.execute(select(tables.SITTING))}
    paper = tables.PAPER.c
    papers = connection.execute(select(paper.code, paper.sitting).order_by(paper.sitting, paper.place)).all()
    rows = [
        {"paper": code, "entry": "issued", "attempt": 2 if sittings[sitting].retake_of else 1, "due": None,
         "sheets": "", "reason": "", "by": "", "at": sittings[sitting].taken_at}
        for code, sitting in papers
        if sitting in sittings
    ]  # fmt: skip
    if rows:
        connection.execute(insert(tables.REGISTER), rows)


def _states_of_scripts(connection: Connection) -> None:
    tables.METADATA.create_all(connection, tables=[tables.STATE])


def _observations(connection: Connection) -> None:
    _FIRST_OBSERVATION.create(connection, checkfirst=True)


def _marks_by_hand(connection: Connection) -> None:
    _FIRST_GIVEN_MARK.create(connection, checkfirst=True)
    tables.METADATA.create_all(connection, tables=[tables.SAMPLED, tables.APPEAL, tables.PACK])


def _files_by_their_place(connection: Connection) -> None:
    """Files in the record's folder are noted by where they are in it; so are those of a folder that was copied whole.

    Where no note lies in the folder, the notes are of the folder that the record was copied or moved from: the one of
    which the most files stand here at the same place.
    """
    root = folder_of_record(connection.engine)
    if root is None:
        return
    whole = {path: Path(path) for path in connection.scalars(select(tables.FILE.c.path).distinct())}
    old = root
    if not any(path.is_relative_to(root) for path in whole.values()):
        roots = [one for path in whole.values() for one in path.parents if (root / path.relative_to(one)).is_file()]
        old = max(dict.fromkeys(roots), key=roots.count, default=root)
    for kept, path in whole.items():
        if (new := kept_path(path, old)) != kept:
            connection.execute(update(tables.FILE).where(tables.FILE.c.path == kept).values(path=new))


STEPS = (
    Step(says="the first tables", take=_first_tables),
    Step(says="the files that were written", take=_files_written),
    Step(says="the sheets that decisions stood on", take=_sheets_of_decisions),
    Step(says="cells that two typed differently", take=_cells_typed_otherwise),
    Step(says="the register of issued papers", take=_register_of_issues),
    Step(says="the states of scripts", take=_states_of_scripts),
    Step(says="work observed at a job", take=_observations),
    Step(says="second marks, sample results, appeals and packs", take=_marks_by_hand),
    Step(says="files by their place in the record's folder", take=_files_by_their_place),
    Step(says="observations withdrawn", take=_observations_withdrawn),
    Step(says="marks given by hand withdrawn", take=_marks_by_hand_withdrawn),
)


def bring_up_to_date(engine: Engine, at: datetime, steps: Sequence[Step] = STEPS) -> int:
    """Takes the steps that a record has not had. Returns how many. Raises `RecordFaulty` for one that is none of ours.

    Each step is one transaction: where it fails, the record stays as the step before left it.
    """
    taken = 0
    while True:
        with writing(engine, made=_made(engine)) as connection:
            had = _had(connection, engine)
            if had > len(steps):
                raise RecordFaulty(
                    f"{shown_address(engine.url)} was written by a later version of this program; "
                    "bring the program up to date"
                )
            if had == len(steps):
                return taken
            steps[had].take(connection)
            connection.execute(insert(tables.STEP).values(number=had + 1, at=stamp(at)))
        taken += 1


def is_up_to_date(engine: Engine, steps: Sequence[Step] = STEPS) -> bool:
    """Whether a record has had exactly these steps."""
    if not _made(engine):
        return False
    with engine.connect() as connection:
        had: int | None = connection.scalar(select(func.max(tables.STEP.c.number)))
    return had == len(steps)


def _made(engine: Engine) -> bool:
    return bool(inspect(engine).has_table(tables.STEP.name))


def _had(connection: Connection, engine: Engine) -> int:
    """How many steps a record has had. Raises `RecordFaulty` for a database that holds anything else."""
    there = set(inspect(connection).get_table_names())
    if tables.STEP.name in there:
        return connection.scalar(select(func.max(tables.STEP.c.number))) or 0
    if there if engine.dialect.name == "sqlite" else there & set(tables.METADATA.tables):
        raise RecordFaulty(
            f"{shown_address(engine.url)} holds something other than a record; name another with --record"
        )
    return 0
