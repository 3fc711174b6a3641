"""What was said of marked scripts: confirmed, released, taken back. Each is a row, on the marks of its moment."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, get_args

from sqlalchemy import Connection, RowMapping, select

from courseware.database.tables import PAPER, STATE

Said = Literal["confirmed", "released", "back"]
SAID: tuple[Said, ...] = get_args(Said)
WORDS: Mapping[str, str] = {"confirmed": "confirmed", "released": "released", "back": "taken back"}
ScriptKey = tuple[str, int]  # paper and attempt


def said_of(connection: Connection, sitting: str) -> dict[ScriptKey, list[RowMapping]]:
    """Everything that was said of a sitting's scripts, of each the earliest first."""
    asked = select(STATE).join_from(STATE, PAPER).where(PAPER.c.sitting == sitting).order_by(STATE.c.id)
    found: dict[ScriptKey, list[RowMapping]] = {}
    for row in connection.execute(asked).mappings():
        found.setdefault((row["paper"], row["attempt"]), []).append(row)
    return found


def released_in(connection: Connection, sitting: str) -> frozenset[ScriptKey]:
    """The scripts of a sitting that are released: their marks change by a decision alone."""
    return frozenset(key for key, rows in said_of(connection, sitting).items() if is_released(rows))


def is_released(rows: Sequence[RowMapping]) -> bool:
    """Whether the newest word on a script is that it is released."""
    return bool(rows) and rows[-1]["state"] == "released"
