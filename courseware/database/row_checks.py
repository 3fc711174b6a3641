"""Whether the rows of a record are such as this program writes: looked at once, as the record is opened.

A server holds its columns to their types; SQLite takes anything anywhere, and a file is easily changed by hand. A row
that belongs to one of another table must find it there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any, get_args

from sqlalchemy import URL, Column, Engine, Integer, Select, Table, and_, func, literal, not_, or_, select
from sqlalchemy.sql.elements import ColumnElement

from courseware.database import tables
from courseware.database.appeals import Outcome
from courseware.database.connection import reading
from courseware.database.entering import Role
from courseware.database.errors import BY_HAND, RecordFaulty, shown_address
from courseware.database.given_marks import Purpose
from courseware.database.register import ENTRIES
from courseware.database.retention import KINDS
from courseware.database.state_rows import SAID
from courseware.marking.marks import How, Status

_MOST = 1_000_000  # of anything that is counted: marks, rows, attempts, months
_WORDS: Mapping[str, Sequence[str]] = {
    "role": get_args(Role), "status": get_args(Status), "how": get_args(How), "kind": KINDS,
    "entry": ENTRIES, "state": SAID, "purpose": get_args(Purpose), "outcome": get_args(Outcome),
}  # fmt: skip


def check_rows(engine: Engine) -> None:
    """Raises `RecordFaulty` for a row that this program cannot have written, naming its table."""
    with reading(engine) as connection:
        for name, wrong in _checks(engine.url.drivername):
            if connection.exec_driver_sql(wrong).scalar() is not None:
                raise RecordFaulty(
                    f"{shown_address(engine.url)}: a row of its table `{name}` holds what this program "
                    f"did not write: {BY_HAND}"
                )


@cache  # writing them out takes most of the time that opening a small record takes
def _checks(driver: str) -> Sequence[tuple[str, str]]:
    """For each table its name and the SQL that finds a wrong row in it."""
    dialect = URL.create(driver).get_dialect()()
    return [
        (table.name, str(_wrong_row(table, typed=dialect.name != "sqlite").compile(
            dialect=dialect, compile_kwargs={"literal_binds": True}
        )))
        for table in tables.METADATA.sorted_tables
    ]  # fmt: skip


def _wrong_row(table: Table, *, typed: bool) -> Select[int]:
    wrong = [_wrong(column, typed=typed) for column in table.columns]
    return select(literal(1)).select_from(table).where(or_(*wrong)).limit(1)


def _wrong(column: Column[Any], *, typed: bool) -> ColumnElement[bool]:
    """What is true of a value that cannot stand in a column."""
    counts = isinstance(column.type, Integer)
    found: list[ColumnElement[bool]] = []
    if not typed:
        found.append(func.typeof(column) != ("integer" if counts else "text"))
    if counts and not (column.primary_key or column.foreign_keys):
        found.append(not_(column.between(0, _MOST)))
    found += [column.not_in(select(key.column)) for key in column.foreign_keys]
    if column.name in _WORDS:
        found.append(column.not_in(_WORDS[column.name]))
    wrong = or_(literal(1) == 0, *found)
    return and_(column.is_not(None), wrong) if column.nullable else or_(column.is_(None), wrong)
