"""The first markers' marks of very many scripts as they stand, by paper and attempt, without their words."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from operator import getitem
from typing import Any

from sqlalchemy import Connection, Select, func, select

from courseware.database.tables import MARK, PAPER, SCRIPT
from courseware.marking.marks import Mark

ScriptKey = tuple[str, int]  # paper and attempt
_Said = tuple[int | str, str]  # what a part earned, as a figure or its text, and how that was reached
_APART = "\x1e"
_MOST_ASKED = 10_000  # numbers in one query


def rows_of_scripts(connection: Connection, sittings: Sequence[str]) -> dict[ScriptKey, list[Any]]:
    """The rows of each script of first markers in these sittings, by paper and attempt, the newest last."""
    asked = select(SCRIPT.c.id, SCRIPT.c.paper, SCRIPT.c.attempt, SCRIPT.c.status, PAPER.c.sitting)
    asked = asked.join_from(SCRIPT, PAPER)
    asked = asked.where(PAPER.c.sitting.in_(sittings), SCRIPT.c.role == "first").order_by(SCRIPT.c.id)
    found: dict[ScriptKey, list[Any]] = {}
    for row in connection.execute(asked).all():
        found.setdefault((row.paper, row.attempt), []).append(row)
    return found


def rows_asked(sittings: Sequence[str]) -> Select[tuple[int]]:
    """The numbers of the same rows, to ask by."""
    asked = select(SCRIPT.c.id).join_from(SCRIPT, PAPER)
    return asked.where(PAPER.c.sitting.in_(sittings), SCRIPT.c.role == "first")


class _Alike(dict[_Said, Mark]):
    """The marks of one part, by what is said of each: made where first met, then one in memory."""

    def __init__(self, label: str, of: int) -> None:
        self._label, self._of = label, of

    def __missing__(self, said: _Said) -> Mark:
        marks, how = said
        made = Mark(label=self._label, marks=int(marks), of=self._of, how=how, why="")  # type: ignore[arg-type]
        self[said] = made
        return made


def standing_marks(
    connection: Connection, sittings: Sequence[str], scripts: Mapping[ScriptKey, Sequence[Any]]
) -> dict[ScriptKey, tuple[Mark, ...]]:
    """The newest mark of each part of these scripts, which are all of the sittings. Marks alike are one in memory.

    SQLite puts the marks of a row together, since very many short answers take their time; the parts that were marked
    twice on a row are read once more. A server hands over rows as fast.
    """
    if connection.dialect.name == "sqlite":
        of_row = _together(connection, sittings)
    else:
        of_row = _in_order(connection, [row.id for rows in scripts.values() for row in rows])
    return {key: _over_rows([of_row.get(row.id, {}) for row in rows]) for key, rows in scripts.items()}


def marks_in_order(
    connection: Connection, scripts: Mapping[ScriptKey, Sequence[Any]]
) -> dict[ScriptKey, tuple[Mark, ...]]:
    """The same of some scripts only."""
    of_row = _in_order(connection, [row.id for rows in scripts.values() for row in rows])
    return {key: _over_rows([of_row[row.id] for row in rows]) for key, rows in scripts.items()}


def _over_rows(rows: Sequence[Mapping[str, Mark]]) -> tuple[Mark, ...]:
    """The marks of a script's rows, the newest standing."""
    if len(rows) == 1:
        return tuple(rows[0].values())
    marks = dict(rows[0])
    for later in rows[1:]:
        marks |= later
    return tuple(marks.values())


def _together(connection: Connection, sittings: Sequence[str]) -> dict[int, dict[str, Mark]]:
    """The marks of each row. Each column of them is one text, all of them in the same order, whichever that is.

    The parts, and of how many marks each is, are the same on most rows.
    """
    labels = func.group_concat(MARK.c.label, _APART)
    others = (func.group_concat(column) for column in (MARK.c.of, MARK.c.marks, MARK.c.how))
    asked = select(MARK.c.script, func.count(), labels, *others).where(MARK.c.script.in_(rows_asked(sittings)))
    parts: dict[tuple[str, str], tuple[list[str], list[_Alike]]] = {}
    found: dict[int, dict[str, Mark]] = {}
    twice = []
    for row, count, labels, of, marks, how in connection.execute(asked.group_by(MARK.c.script)).all():
        if (labels, of) not in parts:
            names = labels.split(_APART)
            parts[labels, of] = names, [_Alike(*own) for own in zip(names, map(int, of.split(",")), strict=True)]
        names, alike = parts[labels, of]
        said = zip(marks.split(","), how.split(","), strict=True)
        found[row] = dict(zip(names, map(getitem, alike, said), strict=True))
        if len(found[row]) < count:
            twice.append(row)
    for row, mark in _newest_of_twice(connection, twice):
        found[row][mark.label] = mark
    return found


def _newest_of_twice(connection: Connection, rows: Sequence[int]) -> Iterator[tuple[int, Mark]]:
    """Of these rows the newest mark of each part that was marked more than once on its row."""
    for start in range(0, len(rows), _MOST_ASKED):
        newest = select(func.max(MARK.c.id)).where(MARK.c.script.in_(rows[start : start + _MOST_ASKED]))
        newest = newest.group_by(MARK.c.script, MARK.c.label).having(func.count() > 1)
        asked = select(MARK.c.script, MARK.c.label, MARK.c.of, MARK.c.marks, MARK.c.how).where(MARK.c.id.in_(newest))
        for row, label, of, marks, how in connection.execute(asked).all():
            yield row, _Alike(label, of)[marks, how]


def _in_order(connection: Connection, rows: Sequence[int]) -> dict[int, dict[str, Mark]]:
    alike: dict[tuple[str, int], _Alike] = {}
    found: dict[int, dict[str, Mark]] = defaultdict(dict)
    for start in range(0, len(rows), _MOST_ASKED):
        asked = select(MARK.c.script, MARK.c.label, MARK.c.of, MARK.c.marks, MARK.c.how).order_by(MARK.c.id)
        asked = asked.where(MARK.c.script.in_(rows[start : start + _MOST_ASKED]))
        for row, label, of, marks, how in connection.execute(asked).all():
            if (label, of) not in alike:
                alike[label, of] = _Alike(label, of)
            found[row][label] = alike[label, of][marks, how]
    return found
