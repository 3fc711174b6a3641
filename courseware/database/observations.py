"""Work observed at a job: entered beside a learner's papers, put right by a new row, given back as it stands."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Engine, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import BY_HAND, RecordFaulty, RecordRefuses, kept_json
from courseware.database.tables import OBSERVATION, PAPER
from courseware.jobs.observation import GRADES, JudgedResult, MeasuredResult, Observation, Photo, Result
from courseware.trade import TradeError, number


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptObservation:
    """What entering an observation did: `before` is what stood for the same paper, job and day."""

    observation: Observation
    before: Observation | None

    @property
    def is_new(self) -> bool:
        """Whether a row was added."""
        return self.before != self.observation


def keep_observation(engine: Engine, observation: Observation, *, source: str, at: datetime) -> KeptObservation:
    """Enters an observation; the same once more adds nothing. What was entered for the same day stands beneath it.

    Raises `RecordRefuses` where the record has no such paper.
    """
    with writing(engine) as connection:
        if connection.scalar(select(PAPER.c.code).where(PAPER.c.code == observation.code)) is None:
            raise RecordRefuses(f"the record has no paper {observation.code}; look at the paper's code")
        before = _standing(connection, [observation.code]).get(_key(observation))
        if before != observation:
            connection.execute(insert(OBSERVATION), [{**_columns(observation), "source": source, "at": stamp(at)}])
    return KeptObservation(observation=observation, before=before)


def withdraw_observation(engine: Engine, observation: Observation, *, reason: str, by: str, at: datetime) -> None:
    """Withdraws an observation that was entered by mistake: it counts for nothing, and stays in the history.

    Raises `RecordRefuses` where it does not stand so any more, or no reason is given.
    """
    if not reason:
        raise RecordRefuses("an observation is withdrawn for a reason: write it")
    with writing(engine) as connection:
        if _standing(connection, [observation.code]).get(_key(observation)) != observation:
            raise RecordRefuses(
                f"what was observed of {observation.code} at {observation.job} on {observation.day} is another now, or "
                "withdrawn; look at it again"
            )
        row = {**_columns(observation), "source": "", "by": by, "at": stamp(at), "withdrawn": reason}
        connection.execute(insert(OBSERVATION), [row])


def observations_of(engine: Engine, codes: Sequence[str] | None = None) -> tuple[Observation, ...]:
    """The observations as they stand, of these papers' learners or of all, the earliest first: one a job and day."""
    with reading(engine) as connection:
        return tuple(_standing(connection, codes).values())


def observation_in(row: Mapping[Any, Any]) -> Observation:
    """The observation in a row of the record. Raises `RecordFaulty` for what this program cannot have written."""
    try:
        results = tuple(map(_result, kept_json(row["results"], list)))
        photos = tuple(
            Photo(file=str(file), sha256=str(sha256), shows=str(shows))
            for file, sha256, shows in kept_json(row["photos"], list)
        )
    except (TypeError, ValueError, TradeError) as wrong:
        raise wrong if isinstance(wrong, RecordFaulty) else RecordFaulty(f"an observation in it: {BY_HAND}") from None
    return Observation(
        code=row["paper"],
        job=row["job"],
        title=row["title"],
        bay=row["bay"],
        day=row["day"],
        by=row["by"],
        profile=row["profile"],
        results=results,
        photos=photos,
        comment=row["remark"],
        learner_comment=row["learner_remark"],
    )


_Key = tuple[str, str, str]  # paper, job, day


def _key(observation: Observation) -> _Key:
    return observation.code, observation.job, observation.day


def _standing(connection: Connection, codes: Sequence[str] | None) -> dict[_Key, Observation]:
    asked = select(OBSERVATION).order_by(OBSERVATION.c.day, OBSERVATION.c.id)
    if codes is not None:
        asked = asked.where(OBSERVATION.c.paper.in_(codes))
    rows = connection.execute(asked).mappings().all()
    stand = {(row["paper"], row["job"], row["day"]): row for row in rows}
    return {key: observation_in(row) for key, row in stand.items() if row["withdrawn"] is None}


def _columns(one: Observation) -> dict[str, str]:
    photos = [[photo.file, photo.sha256, photo.shows] for photo in one.photos]
    return {
        "paper": one.code, "job": one.job, "title": one.title, "bay": one.bay, "day": one.day, "profile": one.profile,
        "results": json.dumps(list(map(_kept, one.results)), ensure_ascii=False),
        "photos": json.dumps(photos, ensure_ascii=False),
        "remark": one.comment, "learner_remark": one.learner_comment, "by": one.by,
    }  # fmt: skip


def _kept(result: Result) -> list[str]:
    """A line as it is kept: what, target, allowed and measured in mm, each exactly; or what and the grade."""
    if isinstance(result, JudgedResult):
        return [result.what, result.given]
    measured = "" if result.measured is None else str(result.measured)
    return [result.what, str(result.target), str(result.allowed), measured]


def _result(kept: Sequence[str]) -> Result:
    """Raises `ValueError`, `TypeError` or `TradeError` for what is no line."""
    if len(kept) == 2:
        what, given = kept
        if given and given not in GRADES:
            raise ValueError(given)
        return JudgedResult(what=str(what), given=given)
    what, target, allowed, measured = kept
    figure = number(measured) if measured else None
    return MeasuredResult(what=str(what), target=number(target), allowed=number(allowed), measured=figure)
