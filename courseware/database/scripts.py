"""Scripts as written and assessors' decisions: entered once each, changed by a new row, given back as they stand."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, cast

from sqlalchemy import Connection, Engine, RowMapping, insert, select

from courseware.database.appeals import APPEALED
from courseware.database.closed_scripts import closed_in
from courseware.database.connection import reading, stamp, writing
from courseware.database.deciding import TYPED, Said, added
from courseware.database.entering import STATUS, Cell, CellChange, Merged, Role, ScriptRow, cells_of, merge
from courseware.database.errors import RecordRefuses, kept_count, kept_texts
from courseware.database.kept_decisions import (
    KeptDecision,
    Lacking,
    Lapsed,
    decision_in,
    has_lapsed,
    lacking,
    standing_at,
    without_lapsed,
)
from courseware.database.sittings import known
from courseware.database.tables import DECISION, PAPER, SCRIPT
from courseware.marking.attempts import numbered_attempts
from courseware.marking.marks import Decision, Script, Status


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """What entering a sheet did. `left` is what this sheet has otherwise than another assessor, whose cell stands."""

    new: tuple[str, ...]  # codes of papers of which a script was entered for the first time, or once more
    changed: tuple[CellChange, ...]
    left: tuple[CellChange, ...]
    same: tuple[str, ...]  # codes of scripts that added nothing
    decided: tuple[Decision, ...]
    lapsed: tuple[Lapsed, ...] = ()  # of what was kept beside the record: each was made on another answer
    pending: tuple[KeptDecision, ...] = ()  # what was kept and the record still has nothing of
    differing: tuple[tuple[Decision, Decision], ...] = ()  # what the sheet decides otherwise than stands, and that


def enter_scripts(
    engine: Engine,
    sitting_code: str,
    scripts: Sequence[Script],
    decisions: Sequence[Decision],
    *,
    assessor: str,
    role: Role,
    source: str,
    at: datetime,
    kept: Sequence[KeptDecision] = (),
    typed_decisions: Sequence[Decision] = (),
) -> Entered:
    """Enters what a sheet says, all of it or nothing; entering the same sheet again adds nothing.

    `decisions` stand on the sheet; `typed_decisions` were given beside it, and come after those.
    `kept` are the decisions kept beside the record: it has those again that it lacks, as when it was made again.
    A paper's first script is its row that is not `resubmitted`; its resubmissions are counted in the order of their
    rows. A decision that is no longer in the sheet stands until another takes its place.
    Raises `RecordRefuses` for a sitting or paper that is not there, for a script that stands twice, whose paper is
    withdrawn or under appeal, or whose answers are other than when its marks were released.
    """
    attempts = _once_each(scripts)
    common = {"role": role, "at": stamp(at)}
    codes = [*(script.code for script in scripts), *(one.code for one in (*decisions, *typed_decisions))]
    with writing(engine) as connection:
        _all_known(connection, known(connection, sitting_code), codes)
        had = _rows(connection, sitting_code, role)
        typed = [_typed(n, script, had.get((script.code, n), ()), assessor, source) for n, script in attempts]
        closed = closed_in(connection, sitting_code, role)
        for one in typed:
            closed.refuse(one.attempt, one.merged.changed)
        own = {**common, "source": source, "assessor": assessor}
        if rows := [{**own, **one.columns} for one in typed if one.adds]:
            connection.execute(insert(SCRIPT), rows)
        lacked = _have_again(connection, sitting_code, kept, common)
        said = [_said(row) for row in _decision_rows(connection, sitting_code, role)]
        asked = [without_lapsed(own, lacked.lapsed) for own in (decisions, typed_decisions)]
        standing = _on_last_attempts(connection, sitting_code, role)
        new = added(said, *asked, standing=standing, by=assessor, source=source)
        if source != APPEALED:
            closed.refuse_appealed_decisions([one.decision for one in new if one.source != TYPED], said)
            for code in dict.fromkeys(said_now.decision.code for said_now in new):
                closed.refuse_appealed(code)
        decided = _decide(connection, sitting_code, new, common)
        pending = _pending(connection, sitting_code, kept)
    still = {one.decision.key for one in pending}
    return Entered(
        new=tuple(one.script.code for one in typed if not one.before),
        changed=tuple(change for one in typed if one.before for change in one.merged.changed),
        left=tuple(cell for one in typed for cell in one.merged.left),
        same=tuple(one.script.code for one in typed if not one.adds),
        decided=decided,
        lapsed=tuple(one for one in lacked.lapsed if one.decision.key in still),
        pending=pending,
    )


def scripts_of(engine: Engine, sitting_code: str, role: Role) -> tuple[Script, ...]:
    """The scripts as they stand: in the order of the papers, of each its attempts in order."""
    with reading(engine) as connection:
        rows = _rows(connection, known(connection, sitting_code), role)
    return tuple(script_in(versions[-1]) for versions in rows.values())


@dataclass(frozen=True, slots=True)
class Decisions:
    """The newest decision for each part and attempt, in the order of the papers: what stands, and what has lapsed.

    One that was made on another answer than now stands in the cell has lapsed.
    """

    standing: tuple[Decision, ...]
    lapsed: tuple[Lapsed, ...]


def decisions_of(engine: Engine, sitting_code: str, role: Role, paper: str | None = None) -> Decisions:
    """The decisions of a sitting's markers of one role; those on one paper alone where it is named."""
    with reading(engine) as connection:
        return decisions_in(connection, known(connection, sitting_code), role, paper)


def decisions_in(connection: Connection, sitting: str, role: Role, paper: str | None = None) -> Decisions:
    """The same, over a connection that is open."""
    rows = [row for row in _decision_rows(connection, sitting, role) if paper in {None, row["paper"]}]
    scripts = _rows(connection, sitting, role, paper) if rows else {}
    newest = {(row["paper"], row["label"], row["attempt"]): row for row in rows}.values()
    both = [(decision_in(row), _lapse(row, scripts.get((row["paper"], row["attempt"]), ()))) for row in newest]
    return Decisions(
        standing=tuple(decided for decided, lapse in both if lapse is None),
        lapsed=tuple(lapse for _, lapse in both if lapse is not None),
    )


def _on_last_attempts(connection: Connection, sitting: str, role: Role) -> list[Decision]:
    """The decisions that stand on what each paper's learner handed in last."""
    last = dict([*newest_scripts(connection, sitting, role)])
    standing = decisions_in(connection, sitting, role).standing
    return [one for one in standing if one.attempt == last.get(one.code, 1)]


def _lapse(row: RowMapping, versions: Sequence[RowMapping]) -> Lapsed | None:
    """Whether the answer that a decision was made on has been changed. What is said of a whole paper does not lapse."""
    then = standing_at(row["at"], versions)
    if then is None:
        return None
    before, now = script_in(then).cells.get(row["label"], ""), script_in(versions[-1]).cells.get(row["label"], "")
    if not has_lapsed(decision_in(row), before, now):
        return None
    return Lapsed(decision=decision_in(row), line=versions[-1]["line"], before=before, now=now)


def newest_scripts(connection: Connection, sitting_code: str, role: Role) -> dict[tuple[str, int], RowMapping]:
    """The newest row of each script by paper and attempt, in the order of the papers."""
    return {key: versions[-1] for key, versions in _rows(connection, sitting_code, role).items()}


def cells_in(row: Mapping[Any, Any]) -> dict[str, Cell]:
    """The cells of a row of the record, the status among them."""
    return cells_of(script_in(row))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Typed:
    """A script as one sheet has it, the rows that the record has of it, and what comes of both."""

    attempt: int
    script: Script
    before: Sequence[RowMapping]
    merged: Merged

    @property
    def adds(self) -> bool:
        return not self.before or bool(self.merged.changed)

    @property
    def columns(self) -> dict[str, Any]:
        place = {"paper": self.script.code, "attempt": self.attempt, "line": self.script.line}
        return {**place, **cell_columns(self.merged.cells)}


def _typed(attempt: int, script: Script, before: Sequence[RowMapping], assessor: str, source: str) -> _Typed:
    merged = merge([script_row(row) for row in before], script, assessor, source)
    return _Typed(attempt=attempt, script=script, before=before, merged=merged)


def _once_each(scripts: Sequence[Script]) -> list[tuple[int, Script]]:
    """Each script with its attempt. Raises `RecordRefuses` where one paper has the same attempt twice."""
    found: dict[tuple[str, int], Script] = {}
    for attempt, script in numbered_attempts(scripts):
        key = (script.code, attempt)
        if key in found:
            raise RecordRefuses(
                f"the paper {script.code} stands in two rows; write `resubmitted` in the status of the later one, "
                "or take one of them out"
            )
        found[key] = script
    return [(attempt, script) for (_, attempt), script in found.items()]


def _all_known(connection: Connection, sitting: str, codes: Iterable[str]) -> None:
    papers = set(connection.scalars(select(PAPER.c.code).where(PAPER.c.sitting == sitting)))
    for code in codes:
        if code not in papers:
            raise RecordRefuses(f"the sitting {sitting} has no paper {code} in the record; look at the paper's code")


def _rows(
    connection: Connection, sitting: str, role: Role, paper: str | None = None
) -> dict[tuple[str, int], list[RowMapping]]:
    """All rows of each script, oldest first, by paper and attempt in their order; of one `paper`, or all."""
    asked = select(SCRIPT).join_from(SCRIPT, PAPER).where(PAPER.c.sitting == sitting, SCRIPT.c.role == role)
    if paper is not None:
        asked = asked.where(PAPER.c.code == paper)
    found: defaultdict[tuple[str, int], list[RowMapping]] = defaultdict(list)
    for row in connection.execute(asked.order_by(PAPER.c.place, SCRIPT.c.attempt, SCRIPT.c.id)).mappings():
        found[row["paper"], kept_count(row["attempt"])].append(row)
    return dict(found)


def cell_columns(cells: Mapping[str, Cell]) -> dict[str, str]:
    """A script's cells, the status among them, as the columns of a row."""
    written = {label: text for label, (text, _) in cells.items() if label != STATUS}
    unread = {label: why for label, (_, why) in cells.items() if why}
    columns = {"cells": json.dumps(written, ensure_ascii=False), "unread": json.dumps(unread, ensure_ascii=False)}
    return {"status": cells[STATUS][0], **columns}


def script_row(row: RowMapping) -> ScriptRow:
    """A row of the record as merging takes it."""
    return ScriptRow(assessor=row["assessor"], cells=cells_in(row), source=row["source"])


def script_in(row: Mapping[Any, Any]) -> Script:
    """The script in a row of the record."""
    cells, unread = kept_texts(row["cells"]), kept_texts(row["unread"])
    status = cast("Status", row["status"])
    return Script(code=row["paper"], cells=cells, status=status, line=row["line"], unread=unread)


def _decision_rows(connection: Connection, sitting: str, role: Role) -> Sequence[RowMapping]:
    asked = select(DECISION).join_from(DECISION, PAPER).where(PAPER.c.sitting == sitting, DECISION.c.role == role)
    return connection.execute(asked.order_by(PAPER.c.place, DECISION.c.id)).mappings().all()


def _have_again(
    connection: Connection, sitting: str, kept: Sequence[KeptDecision], common: Mapping[str, str]
) -> Lacking:
    """Adds the decisions kept that the record lacks; says which have lapsed."""
    role = cast("Role", common["role"])
    decided = {(row["paper"], row["label"], row["attempt"]) for row in _decision_rows(connection, sitting, role)}
    scripts = {key: script_in(row) for key, row in newest_scripts(connection, sitting, role).items()} if kept else {}
    lacked = lacking(kept, role, decided, scripts)
    if rows := [{**common, **_decision_columns(one.decision, one.by, one.source)} for one in lacked.again]:
        connection.execute(insert(DECISION), rows)
    return lacked


def _pending(connection: Connection, sitting: str, kept: Sequence[KeptDecision]) -> tuple[KeptDecision, ...]:
    """Those kept on a part and attempt of which the record has no decision."""
    roles: tuple[Role, ...] = ("first", "second")
    had = {(role, row["paper"], row["label"], row["attempt"])
           for role in roles for row in _decision_rows(connection, sitting, role)}  # fmt: skip
    return tuple(one for one in kept if (one.role, *one.decision.key) not in had)


def _decision_columns(decision: Decision, by: str, source: str) -> dict[str, Any]:
    said = {"marks": decision.marks, "reason": decision.reason, "comment": decision.comment, "source": source or None}
    return {"paper": decision.code, "label": decision.label, "attempt": decision.attempt, "by": by, **said}


def _said(row: RowMapping) -> Said:
    return Said(decision=decision_in(row), by=row["by"], source=row["source"] or "")


def _decide(
    connection: Connection, sitting: str, new: Sequence[Said], common: Mapping[str, str]
) -> tuple[Decision, ...]:
    """Adds decisions, each on the last attempt of its paper. Returns them."""
    attempts = dict([*newest_scripts(connection, sitting, cast("Role", common["role"]))])
    own = [replace(one, decision=replace(one.decision, attempt=attempts.get(one.decision.code, 1))) for one in new]
    if rows := [{**common, **_decision_columns(one.decision, one.by, one.source)} for one in own]:
        connection.execute(insert(DECISION), rows)
    return tuple(one.decision for one in own)
