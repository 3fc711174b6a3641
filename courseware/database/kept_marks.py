"""Marks kept with how each was reached; a mark that comes out otherwise is a new row, and the newest stands."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Engine, insert, select

from courseware.database.appeals import under_appeal
from courseware.database.connection import reading, stamp, writing
from courseware.database.entering import Role
from courseware.database.errors import RecordFaulty, RecordRefuses, kept_json
from courseware.database.register import withdrawn
from courseware.database.scripts import newest_scripts
from courseware.database.sittings import known
from courseware.database.state_rows import released_in
from courseware.database.tables import MARK, PAPER, SCRIPT
from courseware.marking.attempts import numbered_attempts
from courseware.marking.marks import Mark, MarkedPaper, NamedSlip

_Key = tuple[str, int]  # paper and attempt


def keep_marks(
    engine: Engine, sitting_code: str, marked: Sequence[MarkedPaper], *, by: str, role: Role, at: datetime
) -> int:
    """Adds the marks that are new or other than those that stand; returns how many.

    Of a first marker's released script, and of one under appeal, only what an assessor decided is added: nothing that
    comes out otherwise today.
    Raises `RecordRefuses` for a paper of which no script was entered.
    """
    with writing(engine) as connection:
        scripts = newest_scripts(connection, known(connection, sitting_code), role)
        stand = _standing(connection, sitting_code, role)
        released = released_in(connection, sitting_code) if role == "first" else frozenset()
        appealed = under_appeal(connection, sitting_code) if role == "first" else {}
        rows: list[dict[str, Any]] = []
        for attempt, paper in numbered_attempts(marked):
            key = (paper.code, attempt)
            if key not in scripts:
                raise RecordRefuses(f"no script of the paper {paper.code} was entered, so its marks are not kept")
            before = stand.get(key, {})
            new = [mark for mark in paper.marks if before.get(mark.label) != mark]
            if key in released or paper.code in appealed:
                new = [mark for mark in new if by_hand(mark, before.get(mark.label))]
            rows += [{"script": scripts[key]["id"], **_columns(mark), "by": by, "at": stamp(at)} for mark in new]
        if rows:
            connection.execute(insert(MARK), rows)
    return len(rows)


def by_hand(mark: Mark, before: Mark | None) -> bool:
    """Whether an assessor gave it, or its comment; so is one that no mark stands before."""
    return mark.how == "decided" or before is None or replace(mark, comment=before.comment) == before


def marks_of(engine: Engine, sitting_code: str, role: Role) -> tuple[MarkedPaper, ...]:
    """The marked papers as they stand, in the order of the papers, of each its attempts in order.

    Only those whose marks were kept, and absent learners, who have none.
    """
    with reading(engine) as connection:
        scripts = newest_scripts(connection, known(connection, sitting_code), role)
        stand = _standing(connection, sitting_code, role)
        labels = _labels(connection, sitting_code)
    found: list[MarkedPaper] = []
    for (code, attempt), script in scripts.items():
        absent = script["status"] == "absent"
        if not absent and (code, attempt) not in stand:
            continue
        marks = () if absent else _in_order(stand[code, attempt], labels[code])
        found.append(MarkedPaper(code=code, status=script["status"], marks=marks))
    return tuple(found)


def not_in(engine: Engine, sitting_code: str) -> tuple[str, ...]:
    """The papers of a sitting that are neither marked nor absent nor withdrawn, in order.

    Raises `RecordRefuses` for a sitting that is not there.
    """
    with reading(engine) as connection:
        asked = select(PAPER.c.code).where(PAPER.c.sitting == known(connection, sitting_code)).order_by(PAPER.c.place)
        codes = connection.scalars(asked).all()
        scripts = newest_scripts(connection, sitting_code, "first")
        away = {code for (code, _), row in scripts.items() if row["status"] == "absent"}
        marked = {code for code, _ in _standing(connection, sitting_code, "first")}
        done = away | marked | set(withdrawn(connection, sitting_code))
    return tuple(code for code in codes if code not in done)


def mark_in(row: Mapping[Any, Any]) -> Mark:
    """The mark in a row of the record."""
    return Mark(
        label=row["label"],
        marks=row["marks"],
        of=row["of"],
        how=row["how"],
        why=row["why"],
        written=row["written"],
        slips=_slips(row["slips"]),
        comment=row["comment"],
    )


def _slips(text: Any) -> tuple[NamedSlip, ...]:
    """The slips named in a row. Raises `RecordFaulty` where it holds something else."""
    pairs = kept_json(text, list)
    if not all(isinstance(pair, list) and [type(word) for word in pair] == [str, str] for pair in pairs):
        raise RecordFaulty("a mark of it names slips in another form: it has been changed by hand")
    return tuple(NamedSlip(key=key, says=says) for key, says in pairs)


def _standing(connection: Connection, sitting: str, role: Role) -> dict[_Key, dict[str, Mark]]:
    """The newest mark of each part by paper and attempt."""
    asked = select(MARK, SCRIPT.c.paper, SCRIPT.c.attempt).join_from(MARK, SCRIPT).join(PAPER)
    asked = asked.where(PAPER.c.sitting == sitting, SCRIPT.c.role == role).order_by(MARK.c.id)
    found: dict[_Key, dict[str, Mark]] = {}
    for row in connection.execute(asked).mappings():
        found.setdefault((row["paper"], row["attempt"]), {})[row["label"]] = mark_in(row)
    return found


def _in_order(marks: Mapping[str, Mark], labels: Sequence[str]) -> tuple[Mark, ...]:
    order = {label: place for place, label in enumerate(labels)}
    return tuple(sorted(marks.values(), key=lambda mark: order.get(mark.label, len(order))))


def _labels(connection: Connection, sitting: str) -> dict[str, list[str]]:
    """The parts' labels of each paper in their order."""
    found: dict[str, list[str]] = {}
    for code, issued in connection.execute(select(PAPER.c.code, PAPER.c.issued).where(PAPER.c.sitting == sitting)):
        exercises = kept_json(issued, dict).get("exercises", [])
        try:
            found[code] = [str(part["label"]) for exercise in exercises for part in exercise["parts"]]
        except (KeyError, TypeError):
            raise RecordFaulty(f"the paper {code} in it has been changed by hand") from None
    return found


def _columns(mark: Mark) -> dict[str, Any]:
    slips = json.dumps([[slip.key, slip.says] for slip in mark.slips], ensure_ascii=False)
    words = {"how": mark.how, "why": mark.why, "written": mark.written, "comment": mark.comment}
    return {"label": mark.label, "marks": mark.marks, "of": mark.of, "slips": slips, **words}
