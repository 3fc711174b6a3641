"""The first markers' marks of very many scripts as they stand, by paper and attempt, without their words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, Select, func, select

from courseware.database.tables import MARK, PAPER, SCRIPT
from courseware.marking.marks import Mark

ScriptKey = tuple[str, int]  # paper and attempt
_Said = tuple[str, ...]  # a mark's part, marks, of how many and how it was reached, as texts
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


def standing_marks(
    connection: Connection, sittings: Sequence[str], scripts: Mapping[ScriptKey, Sequence[Any]]
) -> dict[ScriptKey, tuple[Mark, ...]]:
    """The newest mark of each part of these scripts, which are all of the sittings. Marks alike are one in memory.

    SQLite puts the marks of a row together, since very many short answers take their time; where a part was marked
    twice on a row, its marks are read once more in their order. A server hands over rows as fast.
    """
    alike: dict[_Said, Mark] = {}
    of_row: dict[int, dict[str, Mark]] = {}
    again = [row.id for rows in scripts.values() for row in rows]
    if connection.dialect.name == "sqlite":
        again = []
        for row, count, labels, *columns in connection.execute(_together(sittings)).all():
            every = zip(labels.split(_APART), *(column.split(",") for column in columns), strict=True)
            of_row[row] = _marks(every, alike)
            if len(of_row[row]) < count:
                again.append(row)
    of_row |= _in_order(connection, again, alike)
    return {key: _over_rows([of_row.get(row.id, {}) for row in rows]) for key, rows in scripts.items()}


def marks_in_order(
    connection: Connection, scripts: Mapping[ScriptKey, Sequence[Any]]
) -> dict[ScriptKey, tuple[Mark, ...]]:
    """The same of some scripts only."""
    of_row = _in_order(connection, [row.id for rows in scripts.values() for row in rows], {})
    return {key: _over_rows([of_row[row.id] for row in rows]) for key, rows in scripts.items()}


def _over_rows(rows: Sequence[Mapping[str, Mark]]) -> tuple[Mark, ...]:
    """The marks of a script's rows, the newest standing."""
    marks = dict(rows[0])
    for later in rows[1:]:
        marks |= later
    return tuple(marks.values())


def _together(sittings: Sequence[str]) -> Select[Any]:
    """Each column of a row's marks as one text: all of them in the same order, whichever that is."""
    labels = func.group_concat(MARK.c.label, _APART)
    others = (func.group_concat(column) for column in (MARK.c.marks, MARK.c.of, MARK.c.how))
    asked = select(MARK.c.script, func.count(), labels, *others).where(MARK.c.script.in_(rows_asked(sittings)))
    return asked.group_by(MARK.c.script)


def _in_order(connection: Connection, rows: Sequence[int], alike: dict[_Said, Mark]) -> dict[int, dict[str, Mark]]:
    found: dict[int, list[_Said]] = {row: [] for row in rows}
    for start in range(0, len(rows), _MOST_ASKED):
        asked = select(MARK.c.script, MARK.c.label, MARK.c.marks, MARK.c.of, MARK.c.how).order_by(MARK.c.id)
        asked = asked.where(MARK.c.script.in_(rows[start : start + _MOST_ASKED]))
        for row, label, marks, of, how in connection.execute(asked).all():
            found[row].append((label, str(marks), str(of), how))
    return {row: _marks(said, alike) for row, said in found.items()}


def _marks(every: Iterable[_Said], alike: dict[_Said, Mark]) -> dict[str, Mark]:
    found: dict[str, Mark] = {}
    for said in every:
        mark = alike.get(said)
        if mark is None:
            label, marks, of, how = said
            mark = alike[said] = Mark(label=label, marks=int(marks), of=int(of), how=how, why="")  # type: ignore[arg-type]
        found[said[0]] = mark
    return found
