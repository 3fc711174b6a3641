"""What people judged of a paper beside its marks, in words: marks by hand, sample results, appeals."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from sqlalchemy import Connection, RowMapping, Table, select

from courseware.database.tables import APPEAL, GIVEN_MARK, SAMPLED
from courseware.words import count

PURPOSES: Mapping[str, str] = {"second": "second mark", "standard": "standardising mark", "appeal": "re-mark"}
OUTCOMES: Mapping[str, str] = {
    "open": "opened", "stands": "closed: the marks stand", "changed": "closed: the marks are changed",
    "withdrawn": "withdrawn",
}  # fmt: skip
_Said = tuple[str, str, str]  # what, what it is now, why


def judged(connection: Connection, paper: str) -> Iterator[tuple[RowMapping, str, str, str]]:
    """Each row about a paper with what it is of, what it says and its reason."""
    tables: tuple[tuple[Table, Callable[[Mapping[Any, Any]], _Said]], ...] = (
        (GIVEN_MARK, _given), (SAMPLED, _sampled), (APPEAL, _appeal),
    )  # fmt: skip
    for table, says in tables:
        for row in connection.execute(select(table).where(table.c.paper == paper).order_by(table.c.id)).mappings():
            yield (row, *says(row))


def _given(row: Mapping[Any, Any]) -> _Said:
    again = f" (attempt {row['attempt']})" if row["attempt"] > 1 else ""
    gone, given = row["withdrawn"], count(row["marks"], "mark")
    says = f"{given} taken back" if gone else given
    return f"{PURPOSES[row['purpose']]} for {row['label']}{again}", says, gone or row["note"]


def _sampled(row: Mapping[Any, Any]) -> _Said:
    said = "agreed" if row["agreed"] else "not agreed"
    if row["action"]:
        said += f"; action: {row['action']} ({'closed on ' + row['done'] if row['done'] else 'open'})"
    return f"sampled in {row['plan']}", said, row["note"]


def _appeal(row: Mapping[Any, Any]) -> _Said:
    return "appeal", f"{OUTCOMES[row['outcome']]}; {count(row['marks'], 'mark')} stood", row["reason"]
