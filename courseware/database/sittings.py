"""Sittings taken into the record and given back, with names and what was issued kept apart."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Engine, func, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import RecordFaulty, RecordRefuses, kept_json
from courseware.database.register import add_issued, exchanged
from courseware.database.tables import PAPER, PERSON, SCRIPT, SITTING
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, read_sitting


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """A sitting as a list shows it; `scripts` counts the papers of which a script was entered."""

    code: str
    title: str
    date: str
    group: str
    papers: int
    scripts: int
    retake_of: str | None
    taken_at: str


def take(engine: Engine, sitting: Sitting, sitting_text: str, *, at: datetime, by: str = "") -> bool:
    """Takes a sitting in, as issued `by`. False where it is there already, the same; True where anything was added.

    Papers of learners who joined since, and names put right, are added. Raises `RecordRefuses` where another sitting,
    or this one with other papers, stands under the code, and where two names have changed places.
    """
    data = json.loads(sitting_text)
    papers = [_nameless(paper) for paper in data["papers"]]
    with writing(engine) as connection:
        new = connection.scalar(select(SITTING.c.code).where(SITTING.c.code == sitting.code)) is None
        if new:
            _add_head(connection, sitting, data["sitting"], at)
        there = _issued(connection, sitting.code)
        if _head(connection, sitting.code) != data["sitting"] or there != papers[: len(there)]:
            raise RecordRefuses(
                f"the record holds another sitting under {sitting.code}, or this one with other papers; "
                "take in the sitting.json that was issued, or delete a learner in both places"
            )
        _add_papers(connection, sitting.code, papers[len(there) :])
        add_issued(connection, sitting, sitting.papers[len(there) :], by, at)
        return _add_names(connection, sitting, at) > 0 or len(papers) > len(there)


def sitting_of(engine: Engine, code: str) -> Sitting:
    """A sitting with its names. Raises `RecordRefuses` where the record has none of this code, or `RecordFaulty`."""
    try:
        return read_sitting(text_of(engine, code))
    except SittingFaulty as faulty:
        raise RecordFaulty(f"its sitting {code}: {faulty}") from None


def text_of(engine: Engine, code: str) -> str:
    """The text of a sitting, as `sitting.json` holds it. Raises `RecordRefuses`."""
    with reading(engine) as connection:
        papers = _issued(connection, known(connection, code))
        people = learner_names(connection, code)
        for paper in papers:
            name, reference = people.get(paper["code"], ("", ""))
            paper["learner"] = {"name": name, "ref": reference}
        ordered = [{key: paper[key] for key in ("code", "learner", *paper)} for paper in papers]
        data = {"sitting": _head(connection, code), "papers": ordered}
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def sittings(engine: Engine) -> tuple[Summary, ...]:
    """Every sitting, the earliest first."""
    with reading(engine) as connection:
        papers = Counter(connection.scalars(select(PAPER.c.sitting)))
        scripts = select(PAPER.c.sitting).join_from(SCRIPT, PAPER).group_by(PAPER.c.sitting, PAPER.c.code)
        entered = Counter(connection.scalars(scripts))
        rows = connection.execute(select(SITTING).order_by(SITTING.c.date, SITTING.c.taken_at, SITTING.c.code)).all()
    return tuple(
        Summary(
            code=row.code,
            title=row.title,
            date=row.date,
            group=row.class_name,
            papers=papers[row.code],
            scripts=entered[row.code],
            retake_of=row.retake_of,
            taken_at=row.taken_at,
        )
        for row in rows
    )


def known(connection: Connection, code: str) -> str:
    """The code, of a sitting that is there. Raises `RecordRefuses`."""
    if connection.scalar(select(SITTING.c.code).where(SITTING.c.code == code)) is None:
        raise RecordRefuses(f"the record has no sitting {code}; take it in with `courseware record take`")
    return code


def learner_names(connection: Connection, sitting: str | None = None) -> dict[str, tuple[str, str]]:
    """Name and reference by paper, of one sitting or of all: the newest of each."""
    asked = select(PERSON.c.paper, PERSON.c.name, PERSON.c.reference).order_by(PERSON.c.id)
    if sitting is not None:
        asked = asked.join_from(PERSON, PAPER).where(PAPER.c.sitting == sitting)
    return {row.paper: (row.name, row.reference) for row in connection.execute(asked)}


def _add_head(connection: Connection, sitting: Sitting, head: Mapping[str, Any], at: datetime) -> None:
    row: dict[str, str | None] = {"head": _text(head), "retake_of": head.get("retake_of") or None}
    row |= {"code": sitting.code, "title": sitting.title, "date": sitting.date, "class_name": sitting.group}
    row["taken_at"] = stamp(at)
    connection.execute(insert(SITTING), [row])


def _add_papers(connection: Connection, sitting: str, papers: Sequence[Mapping[str, Any]]) -> None:
    """Adds papers after those that the sitting has. Raises `RecordRefuses` where another sitting has one of them."""
    taken = connection.scalars(select(PAPER.c.code).where(PAPER.c.code.in_([p["code"] for p in papers]))).first()
    if taken is not None:
        raise RecordRefuses(f"the paper {taken} stands in the record already, in another sitting; it was not taken in")
    last = connection.scalar(select(func.max(PAPER.c.place)).where(PAPER.c.sitting == sitting))
    start = 0 if last is None else last + 1
    rows = [
        {"code": paper["code"], "sitting": sitting, "place": place, "issued": _text(paper)}
        for place, paper in enumerate(papers, start)
    ]
    if rows:
        connection.execute(insert(PAPER), rows)


def _add_names(connection: Connection, sitting: Sitting, at: datetime) -> int:
    """Adds the names that the record does not have yet; returns how many."""
    before = learner_names(connection, sitting.code)
    now = {paper.code: (paper.learner.name, paper.learner.reference) for paper in sitting.papers}
    had, new = ({code: name for code, (name, _) in one.items()} for one in (before, now))
    for one, two in exchanged(had, new):
        raise RecordRefuses(
            f"the names of {one} and {two} have changed places ({had[one]}, {had[two]} in the register): see on the "
            "papers whose each is; `courseware rename` puts a name right"
        )
    rows = [
        {"paper": code, "name": name, "reference": reference, "at": stamp(at)}
        for code, (name, reference) in now.items()
        if before.get(code, ("", "")) != (name, reference)
    ]
    if rows:
        connection.execute(insert(PERSON), rows)
    return len(rows)


def _head(connection: Connection, code: str) -> Any:
    head = kept_json(connection.scalar(select(SITTING.c.head).where(SITTING.c.code == code)), dict)
    if head.get("code") != code:
        raise RecordFaulty(f"the sitting {code} in it has another code in its own record: it has been changed by hand")
    return head


def _issued(connection: Connection, code: str) -> list[dict[str, Any]]:
    asked = select(PAPER.c.code, PAPER.c.issued).where(PAPER.c.sitting == code).order_by(PAPER.c.place)
    papers = {own: kept_json(text, dict) for own, text in connection.execute(asked)}
    for own, paper in papers.items():
        if paper.get("code") != own:
            raise RecordFaulty(
                f"the paper {own} in it has another code where it was issued: it has been changed by hand"
            )
    return list(papers.values())


def _nameless(paper: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in paper.items() if key != "learner"}


def _text(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False)
