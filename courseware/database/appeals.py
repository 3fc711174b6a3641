"""Appeals against marks: opened on what stood then, closed with an outcome; while one is open nothing of it changes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from sqlalchemy import Connection, Engine, func, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import RecordRefuses
from courseware.database.tables import APPEAL, MARK, PAPER, SCRIPT

APPEALED = "re-mark.xlsx"  # the sheet that the outcome of an appeal stands on, whatever it is called
Outcome = Literal["open", "stands", "changed", "withdrawn"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Appeal:
    """An appeal as it stands. `marks` and `upto` are the total and the newest mark of the script when it was opened."""

    code: str
    attempt: int
    outcome: Outcome
    marks: int
    upto: int
    reason: str
    day: str
    by: str

    @property
    def is_open(self) -> bool:
        return self.outcome == "open"


def open_appeal(engine: Engine, code: str, marks: int, *, reason: str, by: str, day: str, at: datetime) -> Appeal:
    """Opens an appeal on the last script of a paper. Raises `RecordRefuses` where it has none, or one is open."""
    with writing(engine) as connection:
        handed_in = select(func.max(SCRIPT.c.attempt)).where(SCRIPT.c.paper == code, SCRIPT.c.role == "first")
        attempt = connection.scalar(handed_in)
        if attempt is None:
            raise RecordRefuses(f"no script of the paper {code} was handed in; there is nothing to appeal against")
        last = _last(connection, code)
        if last is not None and last.is_open:
            raise RecordRefuses(f"an appeal on {code} is open since {last.day}; enter its outcome first")
        upto = connection.scalar(
            select(func.max(MARK.c.id)).join_from(MARK, SCRIPT).where(SCRIPT.c.paper == code, SCRIPT.c.role == "first")
        )
        opened = Appeal(code=code, attempt=attempt, outcome="open", marks=marks, upto=upto or 0, reason=reason,
                        day=day, by=by)  # fmt: skip
        connection.execute(insert(APPEAL), [{**_columns(opened), "at": stamp(at)}])
    return opened


def close_appeal(
    engine: Engine, code: str, outcome: Outcome, *, reason: str, by: str, day: str, at: datetime
) -> Appeal:
    """Closes the open appeal of a paper. Raises `RecordRefuses` where none is open."""
    with writing(engine) as connection:
        last = _last(connection, code)
        if last is None or not last.is_open:
            raise RecordRefuses(f"no appeal on {code} is open")
        closed = Appeal(code=code, attempt=last.attempt, outcome=outcome, marks=last.marks, upto=last.upto,
                        reason=reason, day=day, by=by)  # fmt: skip
        connection.execute(insert(APPEAL), [{**_columns(closed), "at": stamp(at)}])
    return closed


def appeal_of(engine: Engine, code: str) -> Appeal | None:
    """The newest word on a paper's appeal; none where there was no appeal."""
    with reading(engine) as connection:
        return _last(connection, code)


def all_appeals(engine: Engine) -> tuple[Appeal, ...]:
    """The newest word on the appeal of every paper that had one: open ones first, then the latest."""
    with reading(engine) as connection:
        rows = connection.execute(select(APPEAL).order_by(APPEAL.c.id)).mappings().all()
    newest = {one.code: one for one in map(_appeal, rows)}
    return tuple(sorted(newest.values(), key=lambda one: (one.is_open, one.day), reverse=True))


def under_appeal(connection: Connection, sitting: str) -> dict[str, str]:
    """The papers of a sitting with an open appeal, and the day it was opened."""
    asked = select(APPEAL).join_from(APPEAL, PAPER).where(PAPER.c.sitting == sitting).order_by(APPEAL.c.id)
    newest = {one.code: one for one in map(_appeal, connection.execute(asked).mappings())}
    return {code: one.day for code, one in newest.items() if one.is_open}


def _last(connection: Connection, code: str) -> Appeal | None:
    asked = select(APPEAL).where(APPEAL.c.paper == code).order_by(APPEAL.c.id.desc()).limit(1)
    row = connection.execute(asked).mappings().first()
    return _appeal(row) if row else None


def _appeal(row: Mapping[Any, Any]) -> Appeal:
    return Appeal(
        code=row["paper"],
        attempt=row["attempt"],
        outcome=row["outcome"],
        marks=row["marks"],
        upto=row["upto"],
        reason=row["reason"],
        day=row["day"],
        by=row["by"],
    )


def _columns(one: Appeal) -> dict[str, Any]:
    return {
        "paper": one.code, "attempt": one.attempt, "outcome": one.outcome, "marks": one.marks, "upto": one.upto,
        "reason": one.reason, "day": one.day, "by": one.by,
    }  # fmt: skip
