"""What a centre keeps, as it is asked for at the desk: the register, samples, criteria, times, a learner's papers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime
from fractions import Fraction
from typing import TYPE_CHECKING

from courseware.database import retention
from courseware.database.errors import RecordRefuses
from courseware.database.kept_marks import marks_of
from courseware.database.learner_lookup import whose
from courseware.database.learners import held
from courseware.database.retention import Past
from courseware.database.sittings import Summary, sittings
from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened, record_file
from courseware.quality.sampling import size_of_share
from courseware.settings.settings import MOST_MONTHS, Retention
from courseware.workflows.register import (
    RegisterLine,
    confirm_scripts,
    enter,
    register_lines,
    release_scripts,
    take_scripts_back,
)

if TYPE_CHECKING:
    from sqlalchemy import URL, Engine

    from courseware.database.register import Entry
    from courseware.database.states import Moved

MOVES = ("confirm", "release", "take back")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A kind of data: months for which it is kept (none: always), and what of it is past its time."""

    kind: str
    months: int | None
    past: tuple[Past, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnersPaper:
    """A paper of a learner in the record, and its sitting."""

    code: str
    sitting: str
    title: str
    date: str
    name: str
    reference: str


@contextmanager
def record_there(url: URL) -> Iterator[Engine | None]:
    """The record, open; none where nothing was ever kept."""
    file = record_file(url)
    if file is not None and not file.exists():
        yield None
        return
    with opened(url, make=False) as engine:
        yield engine


def kept_sittings(url: URL) -> tuple[Summary, ...]:
    """The sittings in the record, the latest first."""
    with record_there(url) as engine:
        found = sittings(engine) if engine is not None else ()
    return tuple(sorted(found, key=lambda one: (one.date, one.taken_at), reverse=True))


def register_shown(url: URL, code: str) -> tuple[Summary, tuple[RegisterLine, ...]]:
    """A sitting and the lines of its register. Raises `NotFound` for one that the record does not have."""
    with record_there(url) as engine:
        if engine is not None:
            for one in sittings(engine):
                if one.code == code:
                    return one, register_lines(engine, code)
    raise NotFound(f"the record has no sitting {code}")


def enter_in_register(url: URL, sitting: str, paper: str, entry: Entry, due: str, reason: str, *, by: str) -> str:
    """Enters something of one paper. Returns how it stands then. Raises `NotFound` where that cannot be."""
    if due:
        try:
            due = date.fromisoformat(due).isoformat()
        except ValueError:
            raise NotFound(f"{due} is not a date; write it as 2026-11-25") from None
    with opened(url, make=False) as engine:
        return enter(engine, sitting, paper, entry, due=due, reason=reason, by=by).stands


def move_scripts(url: URL, sitting: str, whose_: Sequence[str], move: str, reason: str, *, by: str) -> Moved:
    """Confirms, releases or takes back scripts of a sitting: of those named, or all. Raises `NotFound`."""
    with opened(url, make=False) as engine:
        if move == "confirm":
            return confirm_scripts(engine, sitting, whose_, by=by)
        if move == "release":
            return release_scripts(engine, sitting, whose_, by=by)
        return take_scripts_back(engine, sitting, whose_, reason=reason, by=by)


def marked_papers(url: URL, codes: Sequence[str]) -> int:
    """How many papers of these sittings are marked: so many there are to sample from."""
    with record_there(url) as engine:
        if engine is None:
            return 0
        return sum(len({one.code for one in marks_of(engine, code, "first") if one.marks}) for code in codes)


def size_asked(typed: str, marked: int) -> int:
    """How many papers a sample of `typed` has, a number such as 4 or a share such as 10 %. Raises `NotFound`."""
    text = typed.strip()
    number = text.removesuffix("%").strip()
    whole, _, part = number.partition(".")
    sound = number.isascii() and f"{whole}{part}".isdigit() and len(number) <= 9
    share = text.endswith("%")
    if sound and share and 0 < Fraction(number) <= 100:
        return size_of_share(marked, Fraction(number) / 100) if marked else 0
    if sound and not share and not part and int(number) > 0:
        return int(number)
    raise NotFound(f"`{typed[:20]}` is neither a number of papers nor a share; write it as 4 or as 10 %")


def kept_times(url: URL, centre: Retention, today: date) -> tuple[Kept, ...]:
    """Each kind of data with the time for which it is kept, and what is past that."""
    with record_there(url) as engine:
        months = retention.kept(engine, centre) if engine is not None else centre.months
        past = retention.past(engine, today, centre) if engine is not None else ()
    return tuple(
        Kept(kind=kind, months=months[kind], past=tuple(one for one in past if one.kind == kind))
        for kind in retention.KINDS
    )


def past_then(url: URL, centre: Retention, today: date, kind: str, months: int | None) -> tuple[Past, ...]:
    """What of a kind would be past its time if it were kept for so many months. Raises `NotFound`."""
    if kind not in retention.KINDS:
        raise NotFound(f"there is no kind of data `{kind}`")
    with record_there(url) as engine:
        found = retention.past(engine, today, centre, instead={kind: months}) if engine is not None else ()
    return tuple(one for one in found if one.kind == kind)


def keep_for(url: URL, centre: Retention, kind: str, months: int | None, *, by: str) -> bool:
    """Keeps a kind of data for so many months. False where that was so already. Raises `NotFound`."""
    with opened(url, make=True) as engine:
        return retention.keep(engine, kind, months, by=by, at=datetime.now(UTC), centre=centre)


def months_typed(typed: str) -> int | None:
    """A number of months, none for `always`. Raises `NotFound`."""
    if typed.strip().casefold() == "always":
        return None
    if not (typed.strip().isascii() and typed.strip().isdigit() and 0 < int(typed[:6]) <= MOST_MONTHS):
        raise NotFound(f"`{typed[:20]}` is not a number of months from 1 to {MOST_MONTHS}, nor `always`")
    return int(typed)


def papers_of(url: URL, who: str) -> tuple[LearnersPaper, ...]:
    """A learner's papers in the record, by code, reference or exact name; `NotFound` where it may be several."""
    with record_there(url) as engine:
        if engine is None:
            raise NotFound("nothing is kept yet, so nobody is in the record")
        there = held(engine)
        try:
            codes = whose(there, who).codes
        except RecordRefuses as refused:
            raise NotFound(str(refused)) from None
        heads = {one.code: one for one in sittings(engine)}
    newest = {one.paper: one for one in there if one.paper in codes}
    return tuple(
        LearnersPaper(
            code=one.paper, sitting=one.sitting, title=heads[one.sitting].title, date=heads[one.sitting].date,
            name=one.name, reference=one.reference,
        )
        for one in newest.values()
    )  # fmt: skip
