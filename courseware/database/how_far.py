"""How far a record is: a value that is another whenever a row was added or taken away."""

from __future__ import annotations

from collections.abc import Collection

from sqlalchemy import Engine, func, select

from courseware.database.connection import reading
from courseware.database.tables import METADATA

HowFar = tuple[tuple[int, int], ...]  # of each table that numbers its rows: the newest, and how many there are


def how_far(engine: Engine, but: Collection[str] = ()) -> HowFar:
    """As it stands now, apart from the tables named in `but`.

    Rows are added and never changed, so what was worked out at the same value is right still.
    Deleting a learner rewrites what names them in other rows as well; it takes rows away, so the value is another.
    """
    tables = [table for table in METADATA.sorted_tables if "id" in table.c and table.name not in but]
    with reading(engine) as connection:
        found = [connection.execute(select(func.max(table.c.id), func.count())).one() for table in tables]
    return tuple((newest or 0, count) for newest, count in found)
