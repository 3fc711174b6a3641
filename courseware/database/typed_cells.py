"""One cell of a script typed on the screen: kept at once, and safe against a second window and a second assessor.

Whoever types says what they saw in the cell. Where something else stands there by now, that stands, what was typed is
kept beside it, and both assessors are told until one of them settles it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from sqlalchemy import Connection, Engine, RowMapping, func, insert, select

from courseware.database.closed_scripts import closed_in
from courseware.database.connection import reading, stamp, writing
from courseware.database.entering import ON_SCREEN, STATUS, Cell, CellChange, Role, standing
from courseware.database.errors import RecordRefuses
from courseware.database.scripts import cell_columns, script_in, script_row
from courseware.database.sittings import known
from courseware.database.tables import PAPER, SCRIPT, TYPED_OTHERWISE
from courseware.marking.marks import Script

CellKey = tuple[str, int, str]  # paper, attempt, and the part's label or `STATUS`


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedCell:
    """What was typed into a cell, and what its assessor saw there. `settles`: having seen what two typed there."""

    code: str
    attempt: int
    label: str  # `STATUS` for the script's status
    text: str
    seen: str
    settles: bool = False

    @property
    def key(self) -> CellKey:
        return self.code, self.attempt, self.label


@dataclass(frozen=True, slots=True, kw_only=True)
class SavedCell:
    """What came of it: what stands in the cell now, and who typed that."""

    saved: Literal["entered", "same", "otherwise"]
    stands: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Otherwise:
    """A cell that two typed differently: what stands, and what `by` typed without having seen it."""

    code: str
    attempt: int
    label: str
    stands: str
    stands_by: str
    text: str
    by: str

    @property
    def key(self) -> CellKey:
        return self.code, self.attempt, self.label


@dataclass(frozen=True, slots=True, kw_only=True)
class OnScreen:
    """A sitting's scripts as they stand, by paper and attempt, and the number of the newest thing typed."""

    scripts: Mapping[tuple[str, int], Script]
    newest: int


def type_cell(
    engine: Engine,
    sitting_code: str,
    cell: TypedCell,
    labels: Sequence[str],
    *,
    assessor: str,
    role: Role,
    at: datetime,
) -> SavedCell:
    """Keeps what was typed into one cell; once this returns it is on the disk. `labels` are those of all the parts.

    Raises `RecordRefuses` for a paper that is not there, or a part that it has not, or what is closed to markers.
    """
    with writing(engine) as connection:
        _known(connection, known(connection, sitting_code), cell, labels)
        versions = _versions(connection, cell.code, cell.attempt, role)
        cells, authors = standing([script_row(row) for row in versions])
        now, by = cells.get(cell.label, ("", ""))[0], authors.get(cell.label, "")
        kept = {"paper": cell.code, "label": cell.label, "role": role, "attempt": cell.attempt, "by": assessor}
        kept["at"] = stamp(at)
        if cell.text != now:
            change = CellChange(code=cell.code, label=cell.label, before=now, after=cell.text, by=by)
            closed_in(connection, sitting_code, role).refuse(cell.attempt, [change])
        if now not in {cell.text, cell.seen}:
            last = _last_otherwise(connection, cell, role)
            if last is None or (last["text"], last["by"], last["stands"]) != (cell.text, assessor, now):
                connection.execute(insert(TYPED_OTHERWISE), [{**kept, "stands": now, "text": cell.text}])
            return SavedCell(saved="otherwise", stands=now, by=by)
        if cell.settles:
            connection.execute(insert(TYPED_OTHERWISE), [{**kept, "stands": cell.text, "text": cell.text}])
        if cell.text == now:
            return SavedCell(saved="same", stands=now, by=by)
        blank: dict[str, Cell] = {STATUS: ("", ""), **dict.fromkeys(labels, ("", ""))}
        row = {"paper": cell.code, "attempt": cell.attempt, "line": versions[-1]["line"] if versions else 0}
        columns = cell_columns({**blank, **_again(cell), **cells, cell.label: (cell.text, "")})
        own = {"role": role, "source": ON_SCREEN, "assessor": assessor, "at": stamp(at)}
        connection.execute(insert(SCRIPT), [{**row, **own, **columns}])
    return SavedCell(saved="entered", stands=cell.text, by=assessor)


def on_screen(engine: Engine, sitting_code: str, role: Role, since: int = 0) -> OnScreen:
    """The scripts as they stand; those alone of which anything was typed after the number `since`.

    A sitting that the record does not have has none.
    """
    newest = select(func.max(SCRIPT.c.id)).join_from(SCRIPT, PAPER)
    newest = newest.where(PAPER.c.sitting == sitting_code, SCRIPT.c.role == role)
    newest = newest.group_by(SCRIPT.c.paper, SCRIPT.c.attempt)
    asked = select(SCRIPT).join_from(SCRIPT, PAPER).where(SCRIPT.c.id.in_(newest), SCRIPT.c.id > since)
    with reading(engine) as connection:
        rows = connection.execute(asked.order_by(PAPER.c.place, SCRIPT.c.attempt)).mappings().all()
    scripts = {(row["paper"], row["attempt"]): script_in(row) for row in rows}
    return OnScreen(scripts=scripts, newest=max((row["id"] for row in rows), default=since))


def typed_otherwise(engine: Engine, sitting_code: str, role: Role) -> tuple[Otherwise, ...]:
    """The cells that two typed differently and nobody has settled yet, in the order of the papers."""
    with reading(engine) as connection:
        return typed_otherwise_in(connection, sitting_code, role)


def typed_otherwise_in(connection: Connection, sitting_code: str, role: Role) -> tuple[Otherwise, ...]:
    """The same, over a connection that is open."""
    asked = select(TYPED_OTHERWISE).join_from(TYPED_OTHERWISE, PAPER)
    asked = asked.where(PAPER.c.sitting == sitting_code, TYPED_OTHERWISE.c.role == role)
    found: dict[CellKey, list[RowMapping]] = {}
    for row in connection.execute(asked.order_by(PAPER.c.place, TYPED_OTHERWISE.c.id)).mappings():
        key = (row["paper"], row["attempt"], row["label"])
        if row["text"] == row["stands"]:
            found.pop(key, None)
        else:
            found.setdefault(key, []).append(row)
    both = [_otherwise(connection, row, role) for rows in found.values() for row in rows]
    return tuple(one for one in both if one.text != one.stands)  # else the first came to it as well


def _known(connection: Connection, sitting: str, cell: TypedCell, labels: Sequence[str]) -> None:
    own = select(PAPER.c.code).where(PAPER.c.sitting == sitting, PAPER.c.code == cell.code)
    if connection.scalar(own) is None:
        raise RecordRefuses(f"the sitting {sitting} has no paper {cell.code} in the record; look at the paper's code")
    last = connection.scalar(select(func.max(SCRIPT.c.attempt)).where(SCRIPT.c.paper == cell.code)) or 1
    if not 1 <= cell.attempt <= last + 1:
        raise RecordRefuses(f"the paper {cell.code} was not handed in {cell.attempt} times; look at the row")
    if cell.label not in (STATUS, *labels):
        raise RecordRefuses(f"the paper {cell.code} has no part {cell.label[:40]}; look at the part's number")


def _again(cell: TypedCell) -> dict[str, Cell]:
    """A script handed in again says so from its first cell on."""
    return {STATUS: ("resubmitted", "")} if cell.attempt > 1 else {}


def _versions(connection: Connection, code: str, attempt: int, role: Role) -> Sequence[RowMapping]:
    asked = select(SCRIPT).where(SCRIPT.c.paper == code, SCRIPT.c.attempt == attempt, SCRIPT.c.role == role)
    return connection.execute(asked.order_by(SCRIPT.c.id)).mappings().all()


def _last_otherwise(connection: Connection, cell: TypedCell, role: Role) -> RowMapping | None:
    table = TYPED_OTHERWISE.c
    asked = select(TYPED_OTHERWISE).where(table.paper == cell.code, table.attempt == cell.attempt, table.role == role)
    asked = asked.where(table.label == cell.label).order_by(table.id.desc()).limit(1)
    return connection.execute(asked).mappings().first()


def _otherwise(connection: Connection, row: RowMapping, role: Role) -> Otherwise:
    versions = _versions(connection, row["paper"], row["attempt"], role)
    cells, authors = standing([script_row(version) for version in versions])
    label = row["label"]
    return Otherwise(
        code=row["paper"],
        attempt=row["attempt"],
        label=label,
        stands=cells.get(label, ("", ""))[0],
        stands_by=authors.get(label, ""),
        text=row["text"],
        by=row["by"],
    )
