"""Standardisation packs: which scripts of a sitting went out under which letters."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Engine, func, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.sittings import known
from courseware.database.tables import PACK, PAPER


@dataclass(frozen=True, slots=True, kw_only=True)
class InPack:
    """A script in a pack."""

    letter: str
    code: str
    attempt: int


def keep_pack(engine: Engine, sitting: str, scripts: Sequence[InPack], *, at: datetime) -> int:
    """Keeps a new pack of a sitting. Returns its number, from 1."""
    with writing(engine) as connection:
        asked = select(func.max(PACK.c.number)).join_from(PACK, PAPER)
        number = (connection.scalar(asked.where(PAPER.c.sitting == known(connection, sitting))) or 0) + 1
        rows = [
            {"paper": one.code, "attempt": one.attempt, "number": number, "letter": one.letter, "at": stamp(at)}
            for one in scripts
        ]
        connection.execute(insert(PACK), rows)
    return number


def pack_of(engine: Engine, sitting: str) -> tuple[InPack, ...]:
    """The newest pack of a sitting in the order of its letters; empty where it has none."""
    with reading(engine) as connection:
        asked = select(PACK).join_from(PACK, PAPER).where(PAPER.c.sitting == known(connection, sitting))
        rows = connection.execute(asked.order_by(PACK.c.letter)).mappings().all()
    newest = max((row["number"] for row in rows), default=0)
    return tuple(
        InPack(letter=row["letter"], code=row["paper"], attempt=row["attempt"])
        for row in rows
        if row["number"] == newest
    )
