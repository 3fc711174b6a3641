"""The state of each script: entered, provisional, marked, confirmed, released; and what changed after it was released.

The first three follow from the marks as they stand; `confirm`, `release` and `take_back` are said by a person, and each
is a row. A confirmation lapses where a mark comes after it; a released script keeps its state, and tells the change.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Literal

from sqlalchemy import Connection, Engine, RowMapping, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import RecordRefuses, kept_texts, kept_time
from courseware.database.kept_marks import mark_in
from courseware.database.scripts import decisions_in, newest_scripts
from courseware.database.sittings import known
from courseware.database.state_rows import Said, ScriptKey, is_released, released_in, said_of
from courseware.database.tables import MARK, PAPER, SCRIPT, STATE
from courseware.database.typed_cells import typed_otherwise_in

State = Literal["entered", "provisional", "marked", "confirmed", "released"]
_ADVICE: dict[State, str] = {
    "entered": "it is not marked yet",
    "provisional": "settle what is open first",
    "marked": "confirm it first",
    "confirmed": "it is confirmed already",
    "released": "it is released already",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A mark that is another than when the script was first released."""

    label: str
    before: int
    after: int
    of: int
    reason: str
    day: str  # ISO 8601


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptState:
    """How the last script of a paper stands: since when and by whom, what is open, what changed since its release."""

    code: str
    attempt: int
    state: State
    open: tuple[str, ...] = ()  # the labels of parts that wait for an assessor
    by: str = ""  # who confirmed or released it
    at: str = ""
    changes: tuple[Change, ...] = ()
    upto: int = 0  # the newest mark

    @property
    def words(self) -> str:
        """The state as a list shows it.

        >>> ScriptState(code="K", attempt=1, state="provisional", open=("1a", "2b")).words
        'provisional (open: 1a, 2b)'
        """
        if self.open:
            return f"{self.state} (open: {', '.join(self.open)})"
        changed = f", changed since: {', '.join(one.label for one in self.changes)}" if self.changes else ""
        return f"{self.state}{f' by {self.by}' if self.by else ''}{changed}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """The papers whose script came into another state, and, where all were asked for, those that could not."""

    codes: tuple[str, ...]
    left: tuple[ScriptState, ...]


def script_states(engine: Engine, sitting: str) -> tuple[ScriptState, ...]:
    """The state of the last script of each paper that was handed in, in the order of the papers. Absent ones have none.

    Raises `RecordRefuses` for a sitting that is not there.
    """
    with reading(engine) as connection:
        return _states(connection, known(connection, sitting))


def released_scripts(engine: Engine, sitting: str) -> frozenset[ScriptKey]:
    """The scripts of a sitting that are released, by paper and attempt."""
    with reading(engine) as connection:
        return released_in(connection, sitting)


def confirm(engine: Engine, sitting: str, codes: Sequence[str] = (), *, by: str, at: datetime) -> Moved:
    """Confirms marked scripts: all of a sitting, or those of the papers named.

    Raises `RecordRefuses`, and confirms none, where one that is named is not marked, or none is.
    """
    return _move(engine, sitting, codes, "confirmed", ("marked",), "", by, at)


def release(engine: Engine, sitting: str, codes: Sequence[str] = (), *, by: str, at: datetime) -> Moved:
    """Releases confirmed scripts, as `confirm` confirms them. From then on a mark changes by a decision alone."""
    return _move(engine, sitting, codes, "released", ("confirmed",), "", by, at)


def take_back(engine: Engine, sitting: str, codes: Sequence[str] = (), *, reason: str, by: str, at: datetime) -> Moved:
    """Takes release or confirmation back, for a reason: the scripts are marked again, to be confirmed anew."""
    if not reason:
        raise RecordRefuses("what was confirmed or released is taken back for a reason: write it")
    return _move(engine, sitting, codes, "back", ("confirmed", "released"), reason, by, at)


def _move(
    engine: Engine,
    sitting: str,
    codes: Sequence[str],
    said: Said,
    needs: tuple[State, ...],
    reason: str,
    by: str,
    at: datetime,
) -> Moved:
    with writing(engine) as connection:
        states = _states(connection, known(connection, sitting))
        there = {one.code: one for one in states}
        if missing := [code for code in codes if code not in there]:
            raise RecordRefuses(f"no script of the paper {missing[0]} was handed in")
        meant = [there[code] for code in codes] if codes else states
        fit = [one for one in meant if one.state in needs]
        left = tuple(one for one in meant if one.state not in needs)
        if left and (codes or not fit):
            raise RecordRefuses(_why_not(left[0], said))
        if not fit:
            raise RecordRefuses(f"no script of the sitting {sitting} was handed in yet")
        rows = [
            {"paper": one.code, "attempt": one.attempt, "state": said, "upto": one.upto, "reason": reason, "by": by,
             "at": stamp(at)}
            for one in fit
        ]  # fmt: skip
        connection.execute(insert(STATE), rows)
    return Moved(codes=tuple(one.code for one in fit), left=left)


def _why_not(one: ScriptState, said: Said) -> str:
    verb = {"confirmed": "be confirmed", "released": "be released", "back": "be taken back"}[said]
    advice = "it is neither confirmed nor released" if said == "back" else _ADVICE[one.state]
    if said == "confirmed" and one.state == "released":
        advice = "it is released already"
    return f"{one.code} is {one.words} and cannot {verb}: {advice}"


def _states(connection: Connection, sitting: str) -> tuple[ScriptState, ...]:
    """In a few queries, however many papers there are."""
    scripts = newest_scripts(connection, sitting, "first")
    last = dict([*scripts])
    marks = _marks(connection, sitting)
    said = said_of(connection, sitting)
    unsettled: dict[ScriptKey, list[str]] = {}
    for one in decisions_in(connection, sitting, "first").lapsed:
        unsettled.setdefault((one.decision.code, one.decision.attempt), []).append(one.decision.label)
    for two in typed_otherwise_in(connection, sitting, "first"):
        unsettled.setdefault((two.code, two.attempt), []).append(two.label)
    for key, row in scripts.items():
        unsettled.setdefault(key, []).extend(_not_marked_since(key, kept_texts(row["cells"]), marks.get(key, ())))
    return tuple(
        _state(key, marks.get(key, ()), said.get(key, ()), unsettled.get(key, ()))
        for key in last.items()
        if scripts[key]["status"] != "absent"
    )


def _state(
    key: ScriptKey, marks: Sequence[RowMapping], said: Sequence[RowMapping], unsettled: Sequence[str]
) -> ScriptState:
    code, attempt = key
    if not marks:
        return ScriptState(code=code, attempt=attempt, state="entered")
    newest = {row["label"]: row for row in marks}
    upto = max(row["id"] for row in marks)
    changes = tuple(_changes(marks, said))
    waiting = [label for label, row in newest.items() if mark_in(row).provisional]
    own = {"code": code, "attempt": attempt, "upto": upto, "changes": changes}
    if is_released(said):
        return ScriptState(state="released", by=said[-1]["by"], at=said[-1]["at"], **own)
    if waiting or unsettled:
        return ScriptState(state="provisional", open=tuple(dict.fromkeys((*waiting, *unsettled))), **own)
    if said and said[-1]["state"] == "confirmed" and said[-1]["upto"] == upto:
        return ScriptState(state="confirmed", by=said[-1]["by"], at=said[-1]["at"], **own)
    return ScriptState(state="marked", **own)


def _not_marked_since(key: ScriptKey, cells: Mapping[str, str], marks: Sequence[RowMapping]) -> Iterator[str]:
    """The labels of cells that are others than when they were marked; of one handed in again, of those that count."""
    _, attempt = key
    for label, mark in {row["label"]: row for row in marks}.items():
        text = cells.get(label, "").strip()
        counts = attempt == 1 or (text and mark["marks"] < mark["of"])
        if counts and text != mark["written"].strip():
            yield label


def _changes(marks: Sequence[RowMapping], said: Sequence[RowMapping]) -> Iterator[Change]:
    """The marks that are others than when the script was first released."""
    first = next((row["upto"] for row in said if row["state"] == "released"), None)
    if first is None:
        return
    then = {row["label"]: row for row in marks if row["id"] <= first}
    for label, now in {row["label"]: row for row in marks}.items():
        if label in then and then[label]["marks"] != now["marks"]:
            day = kept_time(now["at"]).astimezone(UTC).date().isoformat()
            why = now["why"].split(" (Worked out:")[0]
            yield Change(
                label=label, before=then[label]["marks"], after=now["marks"], of=now["of"], reason=why, day=day
            )


def _marks(connection: Connection, sitting: str) -> dict[ScriptKey, list[RowMapping]]:
    asked = select(MARK, SCRIPT.c.paper, SCRIPT.c.attempt).join_from(MARK, SCRIPT).join(PAPER)
    asked = asked.where(PAPER.c.sitting == sitting, SCRIPT.c.role == "first").order_by(MARK.c.id)
    found: dict[ScriptKey, list[RowMapping]] = {}
    for row in connection.execute(asked).mappings():
        found.setdefault((row["paper"], row["attempt"]), []).append(row)
    return found
