"""The register: each paper from the moment of issue; who was absent, is late by agreement, or hands in again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal, get_args

from sqlalchemy import Connection, Engine, Row, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import RecordRefuses, kept_texts
from courseware.database.tables import PAPER, PERSON, REGISTER, SCRIPT, SITTING
from courseware.papers.names import same_name
from courseware.papers.sheet_format import format_words
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.words import listed

Entry = Literal["issued", "absent", "late", "resubmission", "withdrawn", "back"]
ENTRIES: tuple[Entry, ...] = get_args(Entry)
_WITH_REASON = ("absent", "late", "withdrawn", "back")
_WITH_DAY = ("late", "resubmission")


@dataclass(frozen=True, slots=True, kw_only=True)
class Registered:
    """A paper as it stands in the register. `entry` is the newest that was not taken back.

    `attempt` is which time the learner is at this work: 2 on a retake. `retakes` are papers on which it is taken again.
    """

    code: str
    name: str
    reference: str
    attempt: int
    sheets: str  # the format's words, '' as usual
    due: str  # ISO 8601, as last agreed; '' where no day was set
    entry: Entry
    reason: str
    by: str
    at: str
    scripts: int  # handed in: 0 none, 2 handed in again
    sheet_absent: bool = False  # marked absent on the marking sheet
    retakes: tuple[str, ...] = ()

    @property
    def stands(self) -> str:
        """In a word, how it stands: issued, absent, late, handed in, handed in again, or withdrawn."""
        if self.scripts:
            return "handed in" if self.scripts == 1 else "handed in again"
        return "absent" if self.sheet_absent and self.entry == "issued" else self.entry


def register_of(engine: Engine, sitting: str) -> tuple[Registered, ...]:
    """Every paper of a sitting, in the order of issue. Raises `RecordRefuses` for a sitting that is not there."""
    with reading(engine) as connection:
        if connection.scalar(select(SITTING.c.code).where(SITTING.c.code == sitting)) is None:
            raise RecordRefuses(f"the record has no sitting {sitting}; take it in with `courseware record take`")
        return _registered(connection, sitting)


def add_issued(connection: Connection, sitting: Sitting, papers: Sequence[IssuedPaper], by: str, at: datetime) -> None:
    """Enters papers as issued, over a connection that writes."""
    attempt = _attempt(connection, sitting.retake_of)
    rows = [
        {"paper": paper.code, "entry": "issued", "attempt": attempt, "due": sitting.due or None,
         "sheets": format_words(paper.learner.sheets), "reason": "", "by": by, "at": stamp(at)}
        for paper in papers
    ]  # fmt: skip
    if rows:
        connection.execute(insert(REGISTER), rows)


def enter_in_register(
    engine: Engine, paper: str, entry: Entry, *, due: str = "", reason: str = "", by: str, at: datetime
) -> Registered:
    """Enters that a learner was absent, is late until `due`, hands in again, that a paper is withdrawn, or that the
    newest such entry is taken back. Returns the paper as it stands then. Raises `RecordRefuses` where it cannot be.
    """
    with writing(engine) as connection:
        found = connection.execute(
            select(PAPER.c.sitting, SITTING.c.date).join_from(PAPER, SITTING).where(PAPER.c.code == paper)
        ).first()
        if found is None:
            raise RecordRefuses(f"the record has no paper {paper}; look at the paper's code")
        stands = _one(connection, found.sitting, paper)
        if why := _refused(stands, entry, due, reason, found.date):
            raise RecordRefuses(f"{paper} {why}")
        attempt = stands.scripts + stands.attempt if entry == "resubmission" else stands.attempt
        row = {"paper": paper, "entry": entry, "attempt": attempt, "due": due or None, "sheets": stands.sheets,
               "reason": reason, "by": by, "at": stamp(at)}  # fmt: skip
        connection.execute(insert(REGISTER), [row])
        return _one(connection, found.sitting, paper)


def withdrawn(connection: Connection, sitting: str) -> dict[str, str]:
    """The papers of a sitting that are withdrawn, with the reason, over an open connection."""
    asked = select(REGISTER).join_from(REGISTER, PAPER).where(PAPER.c.sitting == sitting, REGISTER.c.entry != "issued")
    rows: dict[str, list[Row[Any]]] = {}
    for row in connection.execute(asked.order_by(REGISTER.c.id)):
        rows.setdefault(row.paper, []).append(row)
    newest = {code: left[-1] for code, own in rows.items() if (left := _not_taken_back(own))}
    return {code: row.reason for code, row in newest.items() if row.entry == "withdrawn"}


def withdrawn_papers(engine: Engine, sitting: str) -> frozenset[str]:
    """The codes of a sitting's papers that are withdrawn."""
    with reading(engine) as connection:
        return frozenset(withdrawn(connection, sitting))


def exchanged(before: Mapping[str, str], now: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Pairs of keys (paper codes, references) whose names have changed places.

    >>> exchanged({"A1": "Ann", "A2": "Ben", "A3": "Cy"}, {"A1": "Ben", "A2": "Ann", "A3": "Cy"})
    (('A1', 'A2'),)
    """
    was = {key: same_name(name) for key, name in before.items() if name}
    other = {key: same_name(name) for key, name in now.items() if was.get(key, same_name(name)) != same_name(name)}
    return tuple(
        (one, two) for one in other for two in other if one < two and (other[one], other[two]) == (was[two], was[one])
    )


def names_by_reference(engine: Engine) -> dict[str, str]:
    """The name that stands under each reference in the record, the newest."""
    asked = select(PERSON.c.reference, PERSON.c.name).where(PERSON.c.reference != "").order_by(PERSON.c.id)
    with reading(engine) as connection:
        return {row.reference: row.name for row in connection.execute(asked)}


def _refused(stands: Registered, entry: Entry, due: str, reason: str, held_on: str) -> str:
    """Why an entry cannot be made; '' where it can."""
    if entry not in ENTRIES or entry == "issued":
        return f"is issued once; the entries are {listed(list(ENTRIES[1:]))}"
    if entry == "back":
        if stands.entry == "issued":
            return "has no entry that could be taken back"
        return "" if reason else "needs the reason for which an entry is taken back"
    if stands.entry == "withdrawn":
        return f"is withdrawn ({stands.reason}); take that back first"
    if stands.scripts and entry != "resubmission":
        return "is handed in, so it is neither absent, late nor withdrawn; a mark is changed by a decision"
    if not stands.scripts and entry == "resubmission":
        return "is not handed in yet; agree a later day as late"
    if entry == stands.entry and (due or None) == (stands.due or None) and reason == stands.reason:
        return f"stands as {entry} in the same words already"
    if entry in _WITH_REASON and not reason:
        return f"is {entry} for a reason: write it"
    if entry in _WITH_DAY and not due:
        return f"needs the day agreed for it ({entry})"
    return f"cannot be due on {due}, before its sitting on {held_on}" if due and due < held_on else ""


def _one(connection: Connection, sitting: str, paper: str) -> Registered:
    return next(one for one in _registered(connection, sitting) if one.code == paper)


def _registered(connection: Connection, sitting: str) -> tuple[Registered, ...]:
    """The register of a sitting in a few queries, however many papers it has."""
    rows: dict[str, list[Row[Any]]] = {}
    asked = select(REGISTER).join_from(REGISTER, PAPER).where(PAPER.c.sitting == sitting)
    for row in connection.execute(asked.order_by(PAPER.c.place, REGISTER.c.id)):
        rows.setdefault(row.paper, []).append(row)
    people = _people(connection, [sitting])
    handed_in = _handed_in(connection, sitting)
    retakes = _retakes(connection, sitting, people)
    return tuple(
        _standing(code, own, people.get(code, ("", "")), handed_in.get(code, {}), retakes.get(code, ()))
        for code, own in rows.items()
    )


def _standing(
    code: str,
    rows: Sequence[Row[Any]],
    person: tuple[str, str],
    statuses: Mapping[int, str],
    retakes: tuple[str, ...],
) -> Registered:
    left = list(_not_taken_back(rows))
    newest = left[-1]
    due = next((row.due for row in reversed(left) if row.due), "")
    return Registered(
        code=code, name=person[0], reference=person[1], attempt=rows[0].attempt, sheets=rows[0].sheets, due=due,
        entry=newest.entry, reason=newest.reason, by=newest.by, at=newest.at,
        scripts=sum(status != "absent" for status in statuses.values()),
        sheet_absent="absent" in statuses.values(), retakes=retakes,
    )  # fmt: skip


def _not_taken_back(rows: Iterable[Row[Any]]) -> list[Row[Any]]:
    left: list[Row[Any]] = []
    for row in rows:
        if row.entry != "back":
            left.append(row)
        elif left and left[-1].entry != "issued":
            left.pop()
    return left


def _attempt(connection: Connection, retake_of: str) -> int:
    """Which time a sitting's learners are at its work, by the retakes that the record has of it."""
    attempt, seen = 1, set[str]()
    while retake_of and retake_of not in seen:
        seen.add(retake_of)
        attempt += 1
        retake_of = connection.scalar(select(SITTING.c.retake_of).where(SITTING.c.code == retake_of)) or ""
    return attempt


def _people(connection: Connection, sittings: Sequence[str]) -> dict[str, tuple[str, str]]:
    asked = select(PERSON.c.paper, PERSON.c.name, PERSON.c.reference).join_from(PERSON, PAPER)
    rows = connection.execute(asked.where(PAPER.c.sitting.in_(sittings)).order_by(PERSON.c.id))
    return {row.paper: (row.name, row.reference) for row in rows}


def _handed_in(connection: Connection, sitting: str) -> dict[str, dict[int, str]]:
    """By paper, the status of each attempt that was entered by first markers."""
    asked = select(SCRIPT.c.paper, SCRIPT.c.attempt, SCRIPT.c.status, SCRIPT.c.cells, SCRIPT.c.unread)
    asked = asked.join_from(SCRIPT, PAPER).where(PAPER.c.sitting == sitting, SCRIPT.c.role == "first")
    newest = {(row.paper, row.attempt): row for row in connection.execute(asked.order_by(SCRIPT.c.id))}
    found: dict[str, dict[int, str]] = {}
    for (paper, attempt), row in newest.items():
        if row.status or row.unread != "{}" or any(text.strip() for text in kept_texts(row.cells).values()):
            found.setdefault(paper, {})[attempt] = row.status  # a row that was cleared since is no script
    return found


def _retakes(connection: Connection, sitting: str, people: Mapping[str, tuple[str, str]]) -> dict[str, tuple[str, ...]]:
    """By paper, the papers of the sitting's retakes that its learner got."""
    again = list(connection.scalars(select(SITTING.c.code).where(SITTING.c.retake_of == sitting)))
    if not again:
        return {}
    theirs: dict[tuple[str, str], list[str]] = {}
    for code, person in _people(connection, again).items():
        if any(person):
            theirs.setdefault(person, []).append(code)
    return {code: tuple(theirs[person]) for code, person in people.items() if person in theirs}


def register_events(rows: Iterable[Mapping[Any, Any]]) -> Iterator[tuple[Mapping[Any, Any], str]]:
    """Each row of a paper in the register with what it says, in words."""
    for row in rows:
        until = f", due {row['due']}" if row["due"] else ""
        yield row, f"{'taken back' if row['entry'] == 'back' else row['entry']}{until}"
