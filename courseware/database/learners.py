"""Everything that the record has of one learner: given out whole, or deleted for good."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import Column, Connection, Engine, Table, delete, select, update

from courseware.database.connection import reading, squeeze, writing
from courseware.database.errors import kept_json
from courseware.database.history import history_in
from courseware.database.learner_lookup import Held, Papers, whose
from courseware.database.tables import (
    APPEAL,
    DECISION,
    GIVEN_MARK,
    MARK,
    OBSERVATION,
    PACK,
    PAPER,
    PERSON,
    REGISTER,
    SAMPLED,
    SCRIPT,
    SITTING,
    STATE,
    TYPED_OTHERWISE,
)

REDACTED = "(a deleted learner)"
_OF_A_PAPER = (
    SCRIPT, DECISION, TYPED_OTHERWISE, OBSERVATION, PERSON, REGISTER, STATE, GIVEN_MARK, SAMPLED, APPEAL, PACK,
)  # fmt: skip
_TYPED: tuple[tuple[Table, Column[Any]], ...] = (  # what is typed of others, where a name may stand
    (SCRIPT, SCRIPT.c.source),
    (SCRIPT, SCRIPT.c.cells),
    (MARK, MARK.c.written),
    (MARK, MARK.c.why),
    (MARK, MARK.c.comment),
    (DECISION, DECISION.c.reason),
    (DECISION, DECISION.c.comment),
    (DECISION, DECISION.c.source),
    (TYPED_OTHERWISE, TYPED_OTHERWISE.c.stands),
    (TYPED_OTHERWISE, TYPED_OTHERWISE.c.text),
    (REGISTER, REGISTER.c.reason),
    (STATE, STATE.c.reason),
    (OBSERVATION, OBSERVATION.c.bay),
    (OBSERVATION, OBSERVATION.c.photos),
    (OBSERVATION, OBSERVATION.c.remark),
    (OBSERVATION, OBSERVATION.c.learner_remark),
    (OBSERVATION, OBSERVATION.c.source),
    (OBSERVATION, OBSERVATION.c.withdrawn),
    (GIVEN_MARK, GIVEN_MARK.c.note),
    (GIVEN_MARK, GIVEN_MARK.c.written),
    (GIVEN_MARK, GIVEN_MARK.c.source),
    (GIVEN_MARK, GIVEN_MARK.c.withdrawn),
    (SAMPLED, SAMPLED.c.action),
    (SAMPLED, SAMPLED.c.note),
    (APPEAL, APPEAL.c.reason),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Deleted:
    """What deleting a learner took out of the record, and where the name may still stand, for the tutor to look at."""

    papers: tuple[str, ...]
    sittings: tuple[str, ...]  # that had no other paper, and went too
    redacted: int  # remarks on other papers that named the learner
    still: tuple[str, ...]


def held(engine: Engine) -> tuple[Held, ...]:
    """Every paper in the record with its learner, under each name that it has had."""
    asked = select(PAPER.c.sitting, PAPER.c.code, PERSON.c.name, PERSON.c.reference)
    asked = asked.join_from(PAPER, PERSON, isouter=True).order_by(PAPER.c.sitting, PAPER.c.place)
    with reading(engine) as connection:
        rows = connection.execute(asked).all()
    return tuple(Held(sitting=s, paper=p, name=name or "", reference=ref or "") for s, p, name, ref in rows)


def export_learner(engine: Engine, who: str) -> dict[str, Any]:
    """All that the record has of a learner, as plain data: papers as issued, scripts, marks, decisions, their history.

    Raises `RecordRefuses` where `who` is nobody, or may be several.
    """
    papers = whose(held(engine), who)
    with reading(engine) as connection:
        return {
            "learner": [{"name": name, "reference": reference} for name, reference in papers.identities],
            "papers": [_paper(connection, code) for code in papers.codes],
        }


def delete_papers(engine: Engine, papers: Papers) -> Deleted:
    """Deletes a learner's papers, names, scripts, marks and decisions for good; papers that are gone are passed over.

    A sitting without other papers goes too. Remarks on other papers lose the name and the code. A SQLite file is
    rewritten, so that no byte of them stays in it.
    """
    codes = papers.codes
    with writing(engine) as connection:
        there = tuple(connection.scalars(select(PAPER.c.code).where(PAPER.c.code.in_(codes))))
        photographs = _photographs(connection, codes)
        scripts = select(SCRIPT.c.id).where(SCRIPT.c.paper.in_(codes))
        connection.execute(delete(MARK).where(MARK.c.script.in_(scripts)))
        for table in _OF_A_PAPER:
            connection.execute(delete(table).where(table.c.paper.in_(codes)))
        connection.execute(delete(PAPER).where(PAPER.c.code.in_(codes)))
        empty = select(SITTING.c.code).where(SITTING.c.code.not_in(select(PAPER.c.sitting)))
        gone = tuple(connection.scalars(empty))
        connection.execute(delete(SITTING).where(SITTING.c.code.in_(gone)))
        redacted = _redact(connection, telling(papers))
        still = (*_still(connection, papers), *photographs)
    squeeze(engine)
    return Deleted(papers=there, sittings=gone, redacted=redacted, still=still)


def telling(papers: Papers) -> re.Pattern[str]:
    """Finds a learner in what others typed: codes, names of two words or more, references that are not a mere figure.

    A name of one word may be a word of the trade (Mason, Mark), a short number an answer: those are left alone.
    """
    return _whole_words(telling_words(papers))


def telling_words(papers: Papers) -> set[str]:
    """What `telling` finds."""
    names = [name for name, _ in papers.identities if " " in name]
    references = [ref for _, ref in papers.identities if re.search("[A-Za-z]", ref) or len(ref) > 5]
    codes = [form for code in papers.codes for form in (code, code.replace("-", ""))]
    return {*codes, *names, *(ref for ref in references if len(ref) > 2)}


def _whole_words(words: Iterable[str]) -> re.Pattern[str]:
    longest_first = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, longest_first)) or '(?!)'})(?!\w)", re.IGNORECASE)


def owning(papers: Papers) -> re.Pattern[str]:
    """Fits a cell that by itself makes a row the learner's: the code, or the name whatever word it is."""
    return _whole_words([*telling_words(papers), *(name for name, _ in papers.identities if name)])


def _redact(connection: Connection, pattern: re.Pattern[str]) -> int:
    count = 0
    for table, column in _TYPED:
        for row, text in connection.execute(select(table.c.id, column).where(column.is_not(None))).all():
            redacted, found = pattern.subn(REDACTED, text)
            if found:
                connection.execute(update(table).where(table.c.id == row).values({column.name: redacted}))
                count += 1
    return count


def _still(connection: Connection, papers: Papers) -> tuple[str, ...]:
    named = _whole_words([*papers.codes, *(name for name, _ in papers.identities if name)])
    rows = connection.execute(select(SITTING.c.code, SITTING.c.title, SITTING.c.class_name))
    return tuple(
        f"the {what} of the sitting {code}"
        for code, *texts in rows
        for what, text in zip(("title", "group"), texts, strict=True)
        if named.search(text)
    )


def _photographs(connection: Connection, codes: Sequence[str]) -> tuple[str, ...]:
    """The photographs that the record only refers to: they are the assessor's own, and stay where they are."""
    rows = connection.scalars(select(OBSERVATION.c.photos).where(OBSERVATION.c.paper.in_(codes)))
    files = [str(photo[0]) for text in rows for photo in kept_json(text, list) if isinstance(photo, list) and photo]
    return tuple(f"the photograph {file}" for file in dict.fromkeys(files))


def _paper(connection: Connection, code: str) -> dict[str, Any]:
    columns = (SITTING.c.code, SITTING.c.title, SITTING.c.date, SITTING.c.class_name, PAPER.c.issued)
    row = connection.execute(select(*columns).join_from(PAPER, SITTING).where(PAPER.c.code == code)).one()
    events = [{**asdict(event), "at": event.at.isoformat()} for event in history_in(connection, code)]
    return {
        "code": code,
        "sitting": {"code": row.code, "title": row.title, "date": row.date, "group": row.class_name},
        "issued": kept_json(row.issued, dict).get("exercises", []),
        "names": _rows(connection, PERSON, code),
        "scripts": _rows(connection, SCRIPT, code),
        "marks": _marks(connection, code),
        "decisions": _rows(connection, DECISION, code),
        "typed_otherwise": _rows(connection, TYPED_OTHERWISE, code),
        "register": _rows(connection, REGISTER, code),
        "states": _rows(connection, STATE, code),
        "observations": _rows(connection, OBSERVATION, code),
        "marks_by_hand": _rows(connection, GIVEN_MARK, code),
        "sample_results": _rows(connection, SAMPLED, code),
        "appeals": _rows(connection, APPEAL, code),
        "packs": _rows(connection, PACK, code),
        "history": events,
    }


def _rows(connection: Connection, table: Table, code: str) -> list[dict[str, Any]]:
    rows = connection.execute(select(table).where(table.c.paper == code).order_by(table.c.id)).mappings()
    return [_plain(row) for row in rows]


def _marks(connection: Connection, code: str) -> list[dict[str, Any]]:
    asked = select(MARK, SCRIPT.c.attempt, SCRIPT.c.role).join_from(MARK, SCRIPT).where(SCRIPT.c.paper == code)
    return [_plain(row) for row in connection.execute(asked.order_by(MARK.c.id)).mappings()]


def _plain(row: Mapping[Any, Any]) -> dict[str, Any]:
    """A row without the record's own numbers; JSON columns as data."""
    inner = {"cells", "unread", "slips", "results", "photos"}
    own = {"id", "paper", "script", "upto"}
    return {key: kept_json(value, object) if key in inner else value for key, value in row.items() if key not in own}
