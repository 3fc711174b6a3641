"""Many sittings at once, in outline: what sampling and criteria ask of them, in a few queries however many papers.

Every paper of a sitting asks the same parts under the same labels, so one of them tells the exercises of all.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Engine, case, func, select

from courseware.database.connection import reading
from courseware.database.errors import RecordFaulty, kept_json
from courseware.database.standing_marks import ScriptKey, marks_in_order, rows_asked, rows_of_scripts, standing_marks
from courseware.database.tables import MARK, PAPER, PERSON, SITTING
from courseware.marking.marks import PROVISIONAL, Mark, MarkedPaper, MarkedSitting
from courseware.papers.group import Learner
from courseware.papers.sitting import IssuedExercise, IssuedPaper, IssuedPart, Sitting, SourceFile
from courseware.settings.settings import BANK_KEYS, Settings

_OF_A_PART = ("label", "name", "kind", "marks")
_Person = tuple[str, str]  # name and reference, both '' where nobody is known
_Asked = tuple[tuple[str, str, tuple[tuple[Any, ...], ...]], ...]  # topic, exercise, what is said of each part


@contextmanager
def many_plain_objects() -> Iterator[None]:
    """While very many objects are made that hold no circles: Python's search for such would take as long again."""
    looked = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if looked:
            gc.enable()


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """What a paper's last script earned: its marks of how many, those decided by hand, those still open."""

    marks: int
    of: int
    decided: int
    provisional: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """A sitting as a sample sees it: its title, topics, and of each marked paper the learner's name and total."""

    code: str
    title: str
    topics: tuple[str, ...]
    papers: Mapping[str, tuple[str, Total]]


def briefs(engine: Engine, codes: Sequence[str]) -> tuple[Brief, ...]:
    """These sittings in brief, in this order; codes that are not there are left out."""
    with many_plain_objects(), reading(engine) as connection:
        asked = select(SITTING.c.code, SITTING.c.title).where(SITTING.c.code.in_(codes))
        titles = {row.code: row.title for row in connection.execute(asked).all()}
        alike: dict[_Asked, tuple[IssuedExercise, ...]] = {}
        first = {code: _exercises(code, issued, alike) for code, issued in _first_papers(connection, codes).items()}
        parts = {code: sum(len(one.parts) for one in exercises) for code, exercises in first.items()}
        papers = _papers(connection, codes)
        totals = _totals(connection, codes, parts)
    return tuple(
        Brief(
            code=code,
            title=titles[code],
            topics=tuple(dict.fromkeys(exercise.topic for exercise in first.get(code, ()))),
            papers={own: (name, totals[own]) for own, (name, _) in papers.get(code, {}).items() if own in totals},
        )
        for code in codes
        if code in titles
    )


def outlines(engine: Engine, codes: Sequence[str]) -> tuple[MarkedSitting, ...]:
    """These sittings with their first markers' marks as they stand, in this order; codes not there are left out.

    A sitting in outline has its banks, the rules they are compiled by, and of each paper the learner, the labels and
    the names of its parts; its marks have no words. Raises `RecordFaulty` for a record that was changed by hand.
    """
    with many_plain_objects(), reading(engine) as connection:
        asked = select(SITTING.c.code, SITTING.c.title, SITTING.c.date, SITTING.c.class_name, SITTING.c.head)
        heads = {row.code: row for row in connection.execute(asked.where(SITTING.c.code.in_(codes))).all()}
        papers, first = _papers(connection, codes), _first_papers(connection, codes)
        scripts = _scripts(connection, codes)
    sources: dict[str, tuple[tuple[SourceFile, ...], Settings]] = {}
    alike: dict[_Asked, tuple[IssuedExercise, ...]] = {}
    return tuple(
        _outline(heads[code], papers.get(code, {}), _exercises(code, first.get(code, "{}"), alike), scripts, sources)
        for code in codes
        if code in heads
    )


def _outline(
    head: Any,
    held: Mapping[str, _Person],
    exercises: tuple[IssuedExercise, ...],
    scripts: Mapping[str, Sequence[MarkedPaper]],
    sources: dict[str, tuple[tuple[SourceFile, ...], Settings]],
) -> MarkedSitting:
    """`sources` are those read so far: most sittings have the banks of others, and end in the same text."""
    banks = head.head[head.head.find('"arris_rule"') :]
    if banks not in sources:
        sources[banks] = _sources(head.code, head.head)
    files, settings = sources[banks]
    papers = tuple(
        IssuedPaper(code=code, learner=Learner(name=name, reference=reference), exercises=exercises)
        for code, (name, reference) in held.items()
    )
    sitting = Sitting(
        code=head.code, title=head.title, date=head.date, group=head.class_name, seed="", version="",
        settings=settings, banks=files, safety=None, papers=papers,
    )  # fmt: skip
    return MarkedSitting(sitting=sitting, marked=tuple(one for code in held for one in scripts.get(code, ())))


def _sources(code: str, head: str) -> tuple[tuple[SourceFile, ...], Settings]:
    told = kept_json(head, dict)
    try:
        rules = {"arris_rule": told["arris_rule"], **told.get("settings", {})}
        settings = Settings(**{key: rules[key] for key in BANK_KEYS if key in rules})
        return tuple(SourceFile(**bank) for bank in told["banks"]), settings
    except (LookupError, TypeError, AttributeError):
        raise RecordFaulty(f"its sitting {code} has been changed by hand") from None


def _exercises(code: str, issued: str, alike: dict[_Asked, tuple[IssuedExercise, ...]]) -> tuple[IssuedExercise, ...]:
    """`alike` are those read so far: sittings that ask the same have them in common."""
    told = kept_json(issued, dict)
    try:
        asked = tuple(
            (one["topic"], one["exercise"], tuple(tuple(part[key] for key in _OF_A_PART) for part in one["parts"]))
            for one in told.get("exercises", ())
        )
        if asked not in alike:
            alike[asked] = tuple(_exercise(*one) for one in asked)
        return alike[asked]
    except (LookupError, TypeError, AttributeError):
        raise RecordFaulty(f"a paper of its sitting {code} has been changed by hand") from None


def _exercise(topic: str, exercise: str, parts: tuple[tuple[Any, ...], ...]) -> IssuedExercise:
    own = (dict(zip(_OF_A_PART, part, strict=True)) for part in parts)
    issued = tuple(IssuedPart(**part, answer="", unit="", within="", slips=()) for part in own)
    return IssuedExercise(topic=topic, exercise=exercise, given={}, site={}, setting="", parts=issued)


def _papers(connection: Connection, codes: Sequence[str]) -> dict[str, dict[str, _Person]]:
    """Of each sitting its papers in their order, with whose each is as put right last."""
    asked = select(PAPER.c.sitting, PAPER.c.code, PERSON.c.name, PERSON.c.reference)
    asked = asked.join_from(PAPER, PERSON, isouter=True).where(PAPER.c.sitting.in_(codes))
    asked = asked.order_by(PAPER.c.sitting, PAPER.c.place, PERSON.c.id)
    found: dict[str, dict[str, _Person]] = {}
    for sitting, code, name, reference in connection.execute(asked).all():
        found.setdefault(sitting, {})[code] = (name or "", reference or "")
    return found


def _first_papers(connection: Connection, codes: Sequence[str]) -> dict[str, str]:
    """Of each sitting its first paper as issued."""
    first = select(PAPER.c.sitting, func.min(PAPER.c.place).label("place")).where(PAPER.c.sitting.in_(codes))
    own = first.group_by(PAPER.c.sitting).subquery()
    joined = (PAPER.c.sitting == own.c.sitting) & (PAPER.c.place == own.c.place)
    rows = connection.execute(select(PAPER.c.sitting, PAPER.c.issued).join(own, joined)).all()
    return {row.sitting: row.issued for row in rows}


def _scripts(connection: Connection, codes: Sequence[str]) -> dict[str, list[MarkedPaper]]:
    """By paper its scripts that are marked, or an absent learner's, by attempt."""
    scripts = rows_of_scripts(connection, codes)
    marks = standing_marks(connection, codes, scripts)
    found: dict[str, list[MarkedPaper]] = {}
    for (paper, attempt), rows in sorted(scripts.items()):
        status = rows[-1].status
        own = () if status == "absent" else marks[paper, attempt]
        if own or status == "absent":
            found.setdefault(paper, []).append(MarkedPaper(code=paper, status=status, marks=own))
    return found


def _totals(connection: Connection, codes: Sequence[str], parts: Mapping[str, int]) -> dict[str, Total]:
    """By paper, what its last script that is marked earned. `parts` says how many a sitting has.

    The database adds up scripts whose parts were marked once each; the others are added up here.
    """
    scripts = {key: rows for key, rows in rows_of_scripts(connection, codes).items() if rows[-1].status != "absent"}
    waits = MARK.c.how.in_(PROVISIONAL) & (MARK.c.marks < MARK.c.of)
    asked = select(
        MARK.c.script, func.count(), func.sum(MARK.c.marks), func.sum(MARK.c.of),
        func.sum(case((MARK.c.how == "decided", 1), else_=0)), func.sum(case((waits, 1), else_=0)),
    ).where(MARK.c.script.in_(rows_asked(codes))).group_by(MARK.c.script)  # fmt: skip
    added = {script: [int(figure) for figure in sums] for script, *sums in connection.execute(asked).all()}
    found: dict[ScriptKey, Total] = {}
    apart: dict[ScriptKey, list[Any]] = {}
    for key, rows in scripts.items():
        own = [added[row.id] for row in rows if row.id in added]
        if len(own) == 1 and own[0][0] == parts.get(rows[0].sitting):
            _, marks, of, decided, provisional = own[0]
            found[key] = Total(marks=marks, of=of, decided=decided, provisional=provisional)
        elif own:
            apart[key] = rows
    found |= {key: _total(marks) for key, marks in marks_in_order(connection, apart).items()}
    return {paper: total for (paper, _), total in sorted(found.items(), key=lambda one: one[0])}


def _total(marks: Sequence[Mark]) -> Total:
    return Total(
        marks=sum(mark.marks for mark in marks),
        of=sum(mark.of for mark in marks),
        decided=sum(mark.how == "decided" for mark in marks),
        provisional=sum(mark.provisional for mark in marks),
    )
