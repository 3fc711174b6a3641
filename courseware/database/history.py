"""What happened to one paper, event by event: what was entered, changed, marked and decided, why, by whom and when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Engine, RowMapping, Table, select

from courseware.database.connection import reading
from courseware.database.entering import STATUS, Cell, changes
from courseware.database.errors import RecordRefuses, kept_time
from courseware.database.judged_rows import judged
from courseware.database.kept_marks import mark_in
from courseware.database.observations import observation_in
from courseware.database.register import register_events
from courseware.database.scripts import cells_in
from courseware.database.state_rows import WORDS as STATE_WORDS
from courseware.database.tables import (
    DECISION,
    MARK,
    OBSERVATION,
    PAPER,
    REGISTER,
    SCRIPT,
    SITTING,
    STATE,
    TYPED_OTHERWISE,
)
from courseware.jobs.observation import VERDICTS
from courseware.marking.marks import Mark
from courseware.words import count


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One thing that happened: `what` of the paper went `before` → `after`, '' where there was nothing."""

    at: datetime
    by: str
    what: str  # "1a as written", "mark for 1a", "second marker: decision on 1a"
    before: str
    after: str
    reason: str


def history(engine: Engine, paper_code: str) -> tuple[Event, ...]:
    """Everything that the record has of a paper, the earliest first. Raises `RecordRefuses` where it has none of it."""
    with reading(engine) as connection:
        return history_in(connection, paper_code)


def history_in(connection: Connection, paper_code: str) -> tuple[Event, ...]:
    """The same, over a connection that is open."""
    taken = connection.scalar(select(SITTING.c.taken_at).join_from(PAPER, SITTING).where(PAPER.c.code == paper_code))
    if taken is None:
        raise RecordRefuses(f"the record has no paper {paper_code}; look at the paper's code")
    scripts = select(SCRIPT).where(SCRIPT.c.paper == paper_code).order_by(SCRIPT.c.id)
    marks = select(MARK, SCRIPT.c.attempt, SCRIPT.c.role).join_from(MARK, SCRIPT)
    marks = marks.where(SCRIPT.c.paper == paper_code).order_by(MARK.c.id)
    decisions = select(DECISION).where(DECISION.c.paper == paper_code).order_by(DECISION.c.id)
    otherwise = select(TYPED_OTHERWISE).where(TYPED_OTHERWISE.c.paper == paper_code).order_by(TYPED_OTHERWISE.c.id)
    events = [Event(at=kept_time(taken), by="", what="paper", before="", after="taken into the record", reason="")]
    events += _registered(_of(connection, REGISTER, paper_code))
    events += _states(_of(connection, STATE, paper_code))
    events += _written(connection.execute(scripts).mappings().all())
    events += _typed_otherwise(connection.execute(otherwise).mappings().all())
    events += _decided(connection.execute(decisions).mappings().all())
    events += _marked(connection.execute(marks).mappings().all())
    for row, what, after, reason in judged(connection, paper_code):
        events.append(Event(at=kept_time(row["at"]), by=row["by"], what=what, before="", after=after, reason=reason))
    observed = select(OBSERVATION).where(OBSERVATION.c.paper == paper_code).order_by(OBSERVATION.c.id)
    events += _observed(connection.execute(observed).mappings().all())
    return tuple(sorted(events, key=lambda event: event.at))  # of one moment: written, decided, marked


def _of(connection: Connection, table: Table, paper_code: str) -> Sequence[RowMapping]:
    asked = select(table).where(table.c.paper == paper_code).order_by(table.c.id)
    return connection.execute(asked).mappings().all()


def _registered(rows: Sequence[RowMapping]) -> Iterator[Event]:
    for row, says in register_events(rows):
        if row["by"] or row["entry"] != "issued":  # what was issued before the register says nothing more
            at = kept_time(row["at"])
            yield Event(at=at, by=row["by"], what="register", before="", after=says, reason=row["reason"])


def _states(rows: Sequence[RowMapping]) -> Iterator[Event]:
    before: dict[int, str] = {}
    for row in rows:
        after = STATE_WORDS[row["state"]]
        yield _event({**row, "role": "first"}, row["by"], "state", before.get(row["attempt"], ""), after, row["reason"])
        before[row["attempt"]] = after


def _written(rows: Sequence[RowMapping]) -> Iterator[Event]:
    before: dict[tuple[str, int], dict[str, Cell]] = {}
    for row in rows:
        key = (row["role"], row["attempt"])
        cells = cells_in(row)
        reason = f"{row['source']}, row {row['line']}" if row["line"] else row["source"]
        if key not in before:
            yield _event(row, row["assessor"], "script", "", "entered", reason)
        for label, was, now in changes(before.get(key, {}), cells):
            what = "status" if label == STATUS else f"{label} as written"
            yield _event(row, row["assessor"], what, _cell(was), _cell(now), reason)
        before[key] = cells


def _typed_otherwise(rows: Sequence[RowMapping]) -> Iterator[Event]:
    for row in rows:
        settled = row["text"] == row["stands"]
        what = f"{row['label'] or 'status'} {'settled' if settled else 'typed otherwise'}"
        yield _event(row, row["by"], what, row["stands"], row["text"], "" if settled else "what stood was not seen")


def _marked(rows: Sequence[RowMapping]) -> Iterator[Event]:
    before: dict[tuple[str, int, str], str] = {}
    for row in rows:
        key = (row["role"], row["attempt"], row["label"])
        mark = mark_in(row)
        after = _earned(mark)
        yield _event(row, row["by"], f"mark for {mark.label}", before.get(key, ""), after, mark.why)
        before[key] = after


def _decided(rows: Sequence[RowMapping]) -> Iterator[Event]:
    before: dict[tuple[str, str], str] = {}
    for row in rows:
        key = (row["role"], row["label"])
        marks = "the mark stands" if row["marks"] is None else count(row["marks"], "mark")
        after = f"{marks}; comment: {row['comment']}" if row["comment"] else marks
        yield _event(row, row["by"], f"decision on {row['label']}", before.get(key, ""), after, row["reason"])
        before[key] = after


def _observed(rows: Sequence[RowMapping]) -> Iterator[Event]:
    before: dict[tuple[str, str], str] = {}
    for row in rows:
        key = (row["job"], row["day"])
        gone = row["withdrawn"]
        after = f"{row['title']}: {'withdrawn' if gone else VERDICTS[observation_in(row).verdict]}"
        what = f"observed at the job {row['job']} on {row['day']}"
        yield Event(at=kept_time(row["at"]), by=row["by"], what=what, before=before.get(key, ""), after=after,
                    reason=gone or row["source"])  # fmt: skip
        before[key] = after


def _event(row: Mapping[Any, Any], by: str, what: str, before: str, after: str, reason: str) -> Event:
    marker = "second marker: " if row["role"] == "second" else ""
    attempt = f" (attempt {row['attempt']})" if row.get("attempt", 1) > 1 else ""
    return Event(
        at=kept_time(row["at"]), by=by, what=f"{marker}{what}{attempt}", before=before, after=after, reason=reason
    )


def _earned(mark: Mark) -> str:
    slips = f": {', '.join(slip.says for slip in mark.slips)}" if mark.slips else ""
    comment = f"; comment: {mark.comment}" if mark.comment else ""
    return f"{mark.marks} of {mark.of} ({mark.how}{slips}){comment}"


def _cell(cell: Cell) -> str:
    text, unread = cell
    return f"{text} [{unread}]".strip() if unread else text
