"""What quality assurers found of the papers in their samples; actions stand open until they are closed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Engine, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import RecordRefuses
from courseware.database.tables import PAPER, SAMPLED
from courseware.quality.sample_results import SampleResult


@dataclass(frozen=True, slots=True, kw_only=True)
class Assured:
    """What entering results did."""

    new: tuple[SampleResult, ...]
    changed: tuple[SampleResult, ...]
    same: int


def keep_results(engine: Engine, results: Sequence[SampleResult], *, at: datetime) -> Assured:
    """Enters results, all or none; the same once more adds nothing, another of the same paper and plan is a new row.

    Raises `RecordRefuses` where the record has no such paper.
    """
    with writing(engine) as connection:
        there = set(connection.scalars(select(PAPER.c.code).where(PAPER.c.code.in_([one.code for one in results]))))
        if missing := [one.code for one in results if one.code not in there]:
            raise RecordRefuses(f"the record has no paper {missing[0]}; look at the paper's code")
        rows = connection.execute(select(SAMPLED).order_by(SAMPLED.c.id)).mappings()
        does = beside([_result(row) for row in rows], results)
        if adds := (*does.new, *does.changed):
            connection.execute(insert(SAMPLED), [{**_columns(one), "at": stamp(at)} for one in adds])
    return does


def beside(stand: Sequence[SampleResult], results: Sequence[SampleResult]) -> Assured:
    """What entering `results` does where `stand` are in the record, the newest of a paper and plan last."""
    now = {(one.code, one.plan): one for one in stand}
    adds = [one for one in results if now.get((one.code, one.plan)) != one]
    return Assured(
        new=tuple(one for one in adds if (one.code, one.plan) not in now),
        changed=tuple(one for one in adds if (one.code, one.plan) in now),
        same=len(results) - len(adds),
    )


def results_of(engine: Engine) -> tuple[SampleResult, ...]:
    """The results as they stand: the newest of each paper and plan, in the order of their days."""
    with reading(engine) as connection:
        rows = connection.execute(select(SAMPLED).order_by(SAMPLED.c.id)).mappings().all()
    stand = {(one.code, one.plan): one for one in map(_result, rows)}
    return tuple(sorted(stand.values(), key=lambda one: one.day))


def _result(row: Mapping[Any, Any]) -> SampleResult:
    return SampleResult(
        code=row["paper"],
        plan=row["plan"],
        agreed=bool(row["agreed"]),
        action=row["action"],
        done=row["done"] or "",
        note=row["note"],
        by=row["by"],
        day=row["day"],
    )


def _columns(one: SampleResult) -> dict[str, Any]:
    return {
        "paper": one.code, "plan": one.plan, "agreed": int(one.agreed), "action": one.action, "done": one.done or None,
        "note": one.note, "by": one.by, "day": one.day,
    }  # fmt: skip
