"""The marks of many scripts at once: on any record the same as read one by one, the newest of each part standing."""

from __future__ import annotations

import random

import pytest
from sqlalchemy import insert, select

from courseware.database.connection import reading, writing
from courseware.database.outlines import briefs
from courseware.database.standing_marks import marks_in_order, rows_of_scripts, standing_marks
from courseware.database.tables import MARK, SCRIPT
from courseware.marking.marks import PROVISIONAL

HOW = ("right", "carried", "slip", "blank", "decided", "asked", "unknown")


def fill(engine, sitting, seed: int) -> None:
    """Scripts at random: entered over, handed in again, absent, of a second marker, parts marked over or not at all."""
    chance = random.Random(seed)
    scripts, marks = [], []
    labels = [part.label for part in sitting.papers[0].parts]
    for number in range(1, 13):
        scripts.append(
            {"id": number, "paper": chance.choice(sitting.papers).code, "attempt": chance.choice((1, 1, 2)),
             "role": chance.choice(("first", "first", "second")), "status": chance.choice(("", "", "late", "absent")),
             "cells": "{}", "unread": "{}", "line": 2, "source": "x.xlsx", "assessor": "J. Marsh", "at": "2026-01-05"}
        )  # fmt: skip
        parts = chance.choice((labels, labels, labels[:1], labels[1:], []))
        for label in [*parts, *chance.choices(labels, k=chance.choice((0, 0, 2)))]:
            of = chance.randint(1, 3)
            marks.append(
                {"script": number, "label": label, "marks": chance.randint(0, of), "of": of, "how": chance.choice(HOW),
                 "why": "", "slips": "[]", "written": "", "comment": "", "by": "J. Marsh", "at": "2026-01-05"}
            )  # fmt: skip
    chance.shuffle(marks)  # so that rows of one script do not lie side by side
    with writing(engine) as connection:
        connection.execute(insert(SCRIPT), scripts)
        connection.execute(insert(MARK), marks)


def one_by_one(connection) -> dict[tuple[str, int], tuple[str, dict[str, tuple[int, int, str]]]]:
    """By paper and attempt, the newest status and marks of first markers: every row of the tables in its order."""
    found: dict = {}
    for script in connection.execute(select(SCRIPT).where(SCRIPT.c.role == "first").order_by(SCRIPT.c.id)).all():
        _, marks = found.get((script.paper, script.attempt), ("", {}))
        for mark in connection.execute(select(MARK).where(MARK.c.script == script.id).order_by(MARK.c.id)).all():
            marks[mark.label] = (mark.marks, mark.of, mark.how)
        found[script.paper, script.attempt] = (script.status, marks)
    return found


@pytest.mark.each_database
@pytest.mark.parametrize("seed", range(6))
def test_many_at_once_are_the_same_as_one_by_one(record, sitting, seed: int) -> None:
    fill(record, sitting, seed)
    with reading(record) as connection:
        plain = one_by_one(connection)
        scripts = rows_of_scripts(connection, [sitting.code])
        found = standing_marks(connection, [sitting.code], scripts)
        some = dict(list(scripts.items())[:3])
        of_some = marks_in_order(connection, some)
    told = {key: {m.label: (m.marks, m.of, m.how) for m in marks} for key, marks in found.items()}
    assert told == {key: marks for key, (_, marks) in plain.items()}
    assert {key: set(marks) for key, marks in of_some.items()} == {key: set(found[key]) for key in some}
    [brief] = briefs(record, [sitting.code])
    added = {code: (t.marks, t.of, t.decided, t.provisional) for code, (_, t) in brief.papers.items()}
    assert added == {
        paper: (
            sum(marks for marks, _, _ in own.values()),
            sum(of for _, of, _ in own.values()),
            sum(how == "decided" for _, _, how in own.values()),
            sum(how in PROVISIONAL and marks < of for marks, of, how in own.values()),
        )
        for (paper, _), (status, own) in sorted(plain.items())
        if own and status != "absent"
    }
