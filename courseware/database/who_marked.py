"""Who marked each paper of a sitting, and when: by the marks that stand."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date

from sqlalchemy import Engine, select

from courseware.database.connection import reading
from courseware.database.entering import Role
from courseware.database.errors import kept_time
from courseware.database.tables import MARK, PAPER, SCRIPT


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedBy:
    """Who gave the marks that stand on a paper, in the order in which they came to it, and the day of the last one."""

    names: tuple[str, ...]
    day: date  # in UTC: the same wherever it is read


def who_marked(engine: Engine, sitting_code: str, role: Role) -> dict[str, MarkedBy]:
    """By paper; papers without marks are not among them. Marks of earlier attempts count, since they stand as well."""
    asked = select(SCRIPT.c.paper, SCRIPT.c.attempt, MARK.c.label, MARK.c.by, MARK.c.at).join_from(MARK, SCRIPT)
    asked = asked.join(PAPER).where(PAPER.c.sitting == sitting_code, SCRIPT.c.role == role).order_by(MARK.c.id)
    with reading(engine) as connection:
        rows = connection.execute(asked).all()
    standing: dict[str, dict[tuple[int, str], tuple[str, str]]] = {}
    for paper, attempt, label, by, at in rows:
        marks = standing.setdefault(paper, {})
        marks.pop((attempt, label), None)  # the newest comes last
        marks[attempt, label] = (by, at)
    return {
        paper: MarkedBy(
            names=tuple(dict.fromkeys(by for by, _ in marks.values() if by)),
            day=max(kept_time(at).astimezone(UTC).date() for _, at in marks.values()),
        )
        for paper, marks in standing.items()
    }
