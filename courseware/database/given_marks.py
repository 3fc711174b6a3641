"""Marks that people gave by hand to scripts as written: each a row, the newest of a person and part standing."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any, Literal

from sqlalchemy import Connection, Engine, func, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.entering import Role
from courseware.database.kept_marks import mark_in, marks_of
from courseware.database.sittings import known
from courseware.database.tables import DECISION, GIVEN_MARK, MARK, PAPER, SCRIPT
from courseware.marking.attempts import numbered_attempts
from courseware.marking.marks import MarkedPaper
from courseware.quality.marks_by_hand import HandMark
from courseware.quality.second_marking import same_marker

Purpose = Literal["second", "standard", "appeal"]
SETTLED = "two-markers.xlsx"  # the sheet on which the differences of two markers are settled, whatever it is called


def keep_given(
    engine: Engine, sitting: str, marks: Sequence[HandMark], purpose: Purpose, *, by: str, source: str, at: datetime
) -> int:
    """Adds the marks that a person gave, and those taken back with their reason. Returns how many were added.

    A mark that stands already adds nothing, nor does taking back one that does not stand.
    """
    with writing(engine) as connection:
        own = [replace(mark, by=by) for mark in marks]
        had = _given(connection, known(connection, sitting), purpose, {mark.code for mark in own})
        stand = {mark.key: mark for mark in had if same_marker(mark.by) == same_marker(by)}
        new = [row for mark in own if (row := _to_add(mark, stand.get(mark.key)))]
        more = {"purpose": purpose, "source": source, "at": stamp(at)}
        if new:
            connection.execute(insert(GIVEN_MARK), [{**_columns(mark), **more} for mark in new])
    return len(new)


def given_marks(engine: Engine, sitting: str, purpose: Purpose) -> tuple[HandMark, ...]:
    """The marks given by hand in a sitting as they stand, of every person, in the order in which they came first.

    A mark of an answer that has been changed since is not among them.
    """
    given = given_to_any(engine, sitting, purpose)
    written = {
        (paper.code, attempt, mark.label): mark.written
        for attempt, paper in numbered_attempts(marks_of(engine, sitting, "first"))
        for mark in paper.marks
    }
    return tuple(mark for mark in given if written.get(mark.key, mark.written).strip() == mark.written.strip())


def given_to_any(engine: Engine, sitting: str, purpose: Purpose, codes: Collection[str] = ()) -> tuple[HandMark, ...]:
    """The same, of all papers or of these, whatever the answers are by now."""
    with reading(engine) as connection:
        return _given(connection, known(connection, sitting), purpose, codes)


def newest_given(engine: Engine, sitting: str, purpose: Purpose) -> int:
    """The number of the newest mark given by hand in a sitting; 0 where there is none."""
    asked = select(func.max(GIVEN_MARK.c.id)).join_from(GIVEN_MARK, PAPER).where(PAPER.c.sitting == sitting)
    with reading(engine) as connection:
        return connection.scalar(asked.where(GIVEN_MARK.c.purpose == purpose)) or 0


def hands(engine: Engine, sitting: str, role: Role = "first") -> dict[str, tuple[str, ...]]:
    """Who entered or decided anything of each paper as its first, or second, marker.

    The marks that the program worked out are nobody's own.
    """
    with reading(engine) as connection:
        known(connection, sitting)
    return hands_in(engine, [sitting], role)


def hands_in(engine: Engine, sittings: Sequence[str], role: Role = "first") -> dict[str, tuple[str, ...]]:
    """The same of many sittings at once."""
    found: dict[str, dict[str, None]] = {}
    with reading(engine) as connection:
        for table, who in ((SCRIPT, SCRIPT.c.assessor), (DECISION, DECISION.c.by)):
            asked = select(table.c.paper, who).join_from(table, PAPER).where(PAPER.c.sitting.in_(sittings))
            for paper, name in connection.execute(asked.where(table.c.role == role).order_by(table.c.id)).all():
                found.setdefault(paper, {})[name] = None
    return {paper: tuple(filter(None, names)) for paper, names in found.items()}


def with_given_marks(engine: Engine, purpose: Purpose) -> frozenset[str]:
    """The sittings in which anybody gave marks by hand for this purpose."""
    asked = select(PAPER.c.sitting).join_from(GIVEN_MARK, PAPER).where(GIVEN_MARK.c.purpose == purpose).distinct()
    with reading(engine) as connection:
        return frozenset(connection.scalars(asked))


def marks_before(engine: Engine, sitting: str, sources: Collection[str]) -> tuple[MarkedPaper, ...]:
    """The first marker's marks, each as it was before it was settled on one of these sheets."""
    marked = marks_of(engine, sitting, "first")
    with reading(engine) as connection:
        settled = _settled(connection, sitting, sources)
        asked = select(MARK, SCRIPT.c.paper, SCRIPT.c.attempt).join_from(MARK, SCRIPT).join(PAPER)
        asked = asked.where(PAPER.c.sitting == sitting, SCRIPT.c.role == "first").order_by(MARK.c.id)
        rows = connection.execute(asked).mappings().all() if settled else ()
    before: dict[tuple[str, int, str], Any] = {}
    for row in rows:
        key = (row["paper"], row["attempt"], row["label"])
        if key in settled and row["at"] < settled[key]:
            before[key] = mark_in(row)
    return tuple(
        replace(paper, marks=tuple(before.get((paper.code, attempt, mark.label), mark) for mark in paper.marks))
        for attempt, paper in numbered_attempts(marked)
    )


def _settled(connection: Connection, sitting: str, sources: Collection[str]) -> dict[tuple[str, int, str], str]:
    """When each part was first settled on one of these sheets."""
    asked = select(DECISION).join_from(DECISION, PAPER).where(PAPER.c.sitting == sitting, DECISION.c.role == "first")
    found: dict[tuple[str, int, str], str] = {}
    for row in connection.execute(asked.where(DECISION.c.source.in_(sources)).order_by(DECISION.c.id)).mappings():
        found.setdefault((row["paper"], row["attempt"], row["label"]), row["at"])
    return found


def _given(connection: Connection, sitting: str, purpose: Purpose, codes: Collection[str] = ()) -> tuple[HandMark, ...]:
    asked = select(GIVEN_MARK).join_from(GIVEN_MARK, PAPER).where(PAPER.c.sitting == sitting)
    if codes:
        asked = asked.where(PAPER.c.code.in_(codes))
    rows = connection.execute(asked.where(GIVEN_MARK.c.purpose == purpose).order_by(GIVEN_MARK.c.id)).mappings()
    found: dict[tuple[Any, str], HandMark] = {}
    for mark in map(given_in, rows):
        found[mark.key, same_marker(mark.by)] = mark
    return tuple(mark for mark in found.values() if not mark.withdrawn)


def _to_add(mark: HandMark, stands: HandMark | None) -> HandMark | None:
    """The row that a mark adds beside what stands, none where it adds nothing."""
    if mark.withdrawn:
        return replace(stands, by=mark.by, withdrawn=mark.withdrawn) if stands else None
    return None if stands == mark else mark


def given_in(row: Mapping[Any, Any]) -> HandMark:
    """The mark in a row of the record."""
    return HandMark(
        code=row["paper"],
        attempt=row["attempt"],
        label=row["label"],
        marks=row["marks"],
        note=row["note"],
        written=row["written"],
        by=row["by"],
        withdrawn=row["withdrawn"] or "",
    )


def _columns(mark: HandMark) -> dict[str, Any]:
    return {
        "paper": mark.code, "attempt": mark.attempt, "label": mark.label, "marks": mark.marks, "note": mark.note,
        "written": mark.written, "by": mark.by, "withdrawn": mark.withdrawn or None,
    }  # fmt: skip
