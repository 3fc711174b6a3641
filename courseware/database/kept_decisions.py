"""Decisions kept in a file beside a sitting, and which of them a record that was made again lacks."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

from sqlalchemy import Connection, Engine, RowMapping, select

from courseware.database.connection import reading
from courseware.database.entering import Role
from courseware.database.errors import kept_texts
from courseware.database.tables import DECISION, PAPER, SCRIPT
from courseware.marking.marks import WHOLE_PAPER, Decision, Script

DecisionKey = tuple[str, str, int]  # paper, part and attempt


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptDecision:
    """A decision as it is kept: with the answer that it was made on, who made it, as which marker, on which sheet."""

    decision: Decision
    written: str
    by: str
    role: Role
    source: str = ""  # '' if it was not noted


@dataclass(frozen=True, slots=True, kw_only=True)
class Lapsed:
    """A decision that was made on an answer which has been changed since: what was written, and what is now."""

    decision: Decision
    line: int
    before: str
    now: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Lacking:
    """What a record lacks of the decisions kept: what it is to have again, oldest first, and what has lapsed."""

    again: tuple[KeptDecision, ...]
    lapsed: tuple[Lapsed, ...]


def lacking(
    kept: Sequence[KeptDecision],
    role: Role,
    decided: Collection[DecisionKey],
    scripts: Mapping[tuple[str, int], Script],
) -> Lacking:
    """What a record lacks of the decisions of a marker. `decided` is what it has; `scripts` are those now in, by
    paper and attempt: a decision on one that is not in yet waits for it.
    """
    by_key: dict[DecisionKey, list[KeptDecision]] = {}
    for one in kept:
        key = one.decision.key
        if one.role == role and key not in decided and (one.decision.code, one.decision.attempt) in scripts:
            by_key.setdefault(key, []).append(one)
    again: list[KeptDecision] = []
    lapsed: list[Lapsed] = []
    for (code, label, attempt), own in by_key.items():
        script = scripts[code, attempt]
        now = script.cells.get(label, "")
        if has_lapsed(own[-1].decision, own[-1].written, now):
            lapsed.append(Lapsed(decision=own[-1].decision, line=script.line, before=own[-1].written, now=now))
        else:  # an earlier one on another answer would say that it was made on this
            again += [one for one in own if not has_lapsed(one.decision, one.written, now)]
    return Lacking(again=tuple(again), lapsed=tuple(lapsed))


def has_lapsed(decision: Decision, before: str, now: str) -> bool:
    """Whether a mark was decided on another answer. What is said of a whole paper, or a comment, does not lapse."""
    return decision.marks is not None and decision.label != WHOLE_PAPER and before.strip() != now.strip()


def without_lapsed(decisions: Sequence[Decision], lapsed: Sequence[Lapsed]) -> list[Decision]:
    """The decisions on a sheet but for those that say what has lapsed in the same words."""
    said = {one.decision.words for one in lapsed}
    return [decision for decision in decisions if decision.words not in said]


def decisions_to_keep(engine: Engine, sitting: str) -> tuple[KeptDecision, ...]:
    """Every decision that the record has of a sitting: in the order of its papers, of each the oldest first."""
    with reading(engine) as connection:
        rows = _rows(connection, DECISION, sitting)
        scripts = _rows(connection, SCRIPT, sitting)
    versions: dict[tuple[str, int, str], list[RowMapping]] = {}
    for row in scripts:
        versions.setdefault((row["paper"], row["attempt"], row["role"]), []).append(row)
    return tuple(_kept(row, versions.get((row["paper"], row["attempt"], row["role"]), ())) for row in rows)


def standing_at(at: str, versions: Sequence[RowMapping]) -> RowMapping | None:
    """The version of a script, of these from the oldest on, that stood when something was decided; None if none did."""
    return next((version for version in reversed(versions) if version["at"] <= at), None)


def decision_in(row: Mapping[Any, Any]) -> Decision:
    """The decision in a row of the record."""
    return Decision(
        code=row["paper"],
        label=row["label"],
        marks=row["marks"],
        reason=row["reason"],
        comment=row["comment"],
        attempt=row["attempt"],
    )


def _rows(connection: Connection, table: Any, sitting: str) -> Sequence[RowMapping]:
    asked = select(table).join_from(table, PAPER).where(PAPER.c.sitting == sitting)
    return connection.execute(asked.order_by(PAPER.c.place, table.c.id)).mappings().all()


def _kept(row: RowMapping, versions: Sequence[RowMapping]) -> KeptDecision:
    """A decision with what stood in its cell when it was made."""
    then = standing_at(row["at"], versions) or (versions[-1] if versions else None)
    written = kept_texts(then["cells"]).get(row["label"], "") if then else ""
    own = {"by": row["by"], "role": cast("Role", row["role"]), "source": row["source"] or ""}
    return KeptDecision(decision=decision_in(row), written=written, **own)
