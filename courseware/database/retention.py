"""How long the centre keeps names, scripts, marks and papers, and what is past its time. Nothing is deleted here."""

from __future__ import annotations

import calendar
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import Connection, Engine, func, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import RecordRefuses, kept_date
from courseware.database.sittings import learner_names
from courseware.database.tables import MARK, PAPER, SCRIPT, SETTING, SITTING
from courseware.settings.settings import MOST_MONTHS, Retention

UNSET = Retention()
KINDS = tuple(UNSET.months)


@dataclass(frozen=True, slots=True, kw_only=True)
class Past:
    """Records of one kind that a sitting has past their time: on how many papers, and the last day of it."""

    kind: str
    sitting: str
    title: str
    held_on: str
    until: date
    count: int


def keep(engine: Engine, kind: str, months: int | None, *, by: str, at: datetime, centre: Retention = UNSET) -> bool:
    """Sets how many months after its sitting a kind of data is kept; none is without end.

    What is set here stands over the `centre`'s settings. False where it was so already. Raises `RecordRefuses` for an
    unknown kind or a wrong number of months.
    """
    if kind not in KINDS:
        raise RecordRefuses(f"there is no kind of data `{kind}`; the kinds are {', '.join(KINDS)}")
    if months is not None and not 0 < months <= MOST_MONTHS:
        raise RecordRefuses(f"{months} months is not a time to keep anything for; give from 1 to {MOST_MONTHS}")
    with writing(engine) as connection:
        set_here = _set_here(connection)
        if set_here[kind] == months if kind in set_here else months is None is centre.months[kind]:
            return False
        row = {"kind": kind, "months": months, "by": by, "at": stamp(at)}
        connection.execute(insert(SETTING), [row])
    return True


def kept(engine: Engine, centre: Retention = UNSET) -> Mapping[str, int | None]:
    """Months by kind of data, by the centre's settings where the record says nothing; none: without end."""
    with reading(engine) as connection:
        return {**centre.months, **_set_here(connection)}


def past(
    engine: Engine, today: date, centre: Retention = UNSET, *, instead: Mapping[str, int | None] | None = None
) -> tuple[Past, ...]:
    """What is past its time, the oldest sitting first. The time runs from the date of the sitting.

    `instead` are months by kind that would be set here, to see beforehand what would be past then.
    """
    found: list[Past] = []
    with reading(engine) as connection:
        months = {**centre.months, **_set_here(connection), **(instead or {})}
        counts = {kind: _count(connection, kind) for kind in KINDS}
        rows = connection.execute(select(SITTING.c.code, SITTING.c.title, SITTING.c.date)).all()
    for code, title, day in sorted(rows, key=lambda row: row.date):
        for kind in KINDS:
            time, count = months[kind], counts[kind].get(code, 0)
            if time is not None and count and (until := _later(kept_date(day), time)) < today:
                found.append(Past(kind=kind, sitting=code, title=title, held_on=day, until=until, count=count))
    return tuple(found)


def _set_here(connection: Connection) -> dict[str, int | None]:
    """What `keep` has set last, by kind."""
    rows = connection.execute(select(SETTING.c.kind, SETTING.c.months).order_by(SETTING.c.id))
    return {row.kind: row.months for row in rows}


def _count(connection: Connection, kind: str) -> dict[str, int]:
    """How many papers of each sitting have a record of this kind."""
    if kind == "names":
        named = {paper for paper, (name, reference) in learner_names(connection).items() if name or reference}
        found: dict[str, int] = {}
        for sitting, paper in connection.execute(select(PAPER.c.sitting, PAPER.c.code)):
            found[sitting] = found.get(sitting, 0) + (paper in named)
        return found
    asked = (
        select(PAPER.c.sitting, func.count(PAPER.c.code.distinct()).label("papers"))
        .select_from(PAPER)
        .group_by(PAPER.c.sitting)
    )
    if kind in {"scripts", "marks"}:
        asked = asked.join(SCRIPT)
    if kind == "marks":
        asked = asked.join(MARK)
    return {row.sitting: row.papers for row in connection.execute(asked)}


def _later(day: date, months: int) -> date:
    """The same day of the month so many months later, or the last of a shorter month."""
    years, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + years, month + 1
    return date.max if year > date.max.year else date(year, month, min(day.day, calendar.monthrange(year, month)[1]))
