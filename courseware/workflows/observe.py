"""Work at a job as it was observed, taken into the record beside the learner's written papers."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.learner_lookup import whose
from courseware.database.learners import held
from courseware.database.observations import (
    KeptObservation,
    keep_observation,
    observations_of,
    withdraw_observation,
)
from courseware.database.written_files import note_files
from courseware.files.atomic import PRIVATE, slug, write_whole
from courseware.files.bank_files import NotFound, read_file
from courseware.jobs.observation import Observation, ObservationFaulty, Photo, TypedObservation, observed
from courseware.jobs.observation_sheet import ReadSheet, read_observation_sheet
from courseware.jobs.plan import Plan, plan_of
from courseware.papers.codes import read_code
from courseware.papers.sitting_checks import is_plain
from courseware.settings.settings import Settings
from courseware.spreadsheets.rows import TableFaulty
from courseware.text_files.faults import Fault, harmless
from courseware.words import listed
from courseware.workflows.jobs import find_job

if TYPE_CHECKING:
    from sqlalchemy import Engine

_PICTURES = {".jpg", ".jpeg", ".png", ".heic", ".webp", ".tif", ".tiff"}
_LARGEST = 60_000_000  # bytes of a photograph
_MOST_SHOWN = 60  # photographs to choose from
PHOTOGRAPHS = "photographs"  # the folder that they are chosen from, in the folder of work
_LONGEST_FILE, _LONGEST_SHOWS = 255, 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What the command line says in place of the sheet, '' where the sheet is to say it."""

    learner: str = ""
    assessor: str = ""
    day: str = ""


def observe_sheets(
    engine: Engine,
    job: str,
    sheets: Sequence[str],
    settings: Settings,
    *,
    typed: Typed = Typed(),
    copies: Path | None = None,
    photographs: Path | None = None,
) -> tuple[KeptObservation, ...]:
    """Enters what observation sheets of a job say, each a file. All of them are read before any is entered.

    `photographs` is the folder in which those are that a sheet names, its own unless given. `copies` is the folder into
    which photographs are copied; none leaves them where they are.
    Raises `NotFound` or `TableFaulty`, with every fault of a sheet at its row.
    """
    plan = plan_of(find_job(job, settings))
    read = [_read(engine, plan, job, Path(sheet), typed, photographs or Path(sheet).parent) for sheet in sheets]
    return tuple(_enter(engine, one, Path(sheet), copies) for one, sheet in zip(read, sheets, strict=True))


def observe_typed(engine: Engine, job: str, typed: TypedObservation, settings: Settings) -> KeptObservation:
    """Enters an observation that was typed into a form; its photographs are files by their full paths.

    Raises `NotFound`, or `ObservationFaulty` with every fault by its line.
    """
    plan = plan_of(find_job(job, settings))
    photos, faults = _photographs([(Path(file), shows) for file, shows in typed.photos])
    if faults:
        raise ObservationFaulty([("", wrong) for _, wrong in faults])
    found = observed(plan, typed, job=_short(job), code="", photos=photos)
    code = paper_of(engine, typed.learner)
    return keep_observation(engine, replace(found, code=code), source="", at=datetime.now(UTC))


def withdraw_observed(engine: Engine, job: str, learner: str, day: str, *, reason: str, by: str) -> Observation:
    """Withdraws what was observed of a learner at a job, on the day where there are several. Returns what stood.

    Raises `NotFound` where there is no such observation, or `RecordRefuses`.
    """
    codes, name = whose(held(engine), learner).codes, _short(job)
    there = [one for one in observations_of(engine, codes) if one.job == name and day in ("", one.day)]
    if not there:
        raise NotFound(f"nothing is observed of {learner} at {name}{f' on {day}' if day else ''}")
    if len(there) > 1:
        raise NotFound(f"{learner} was observed at {name} on {listed([one.day for one in there])}; name the day")
    withdraw_observation(engine, there[0], reason=reason.strip(), by=by, at=datetime.now(UTC))
    return there[0]


def photographs_there(folder: Path) -> tuple[Path, ...]:
    """The photographs in a folder, the newest first, at most so many; none where it is not there."""
    there = [path for path in folder.glob("*") if path.suffix.lower() in _PICTURES and path.is_file()]
    return tuple(sorted(there, key=lambda path: (path.stat().st_mtime, path.name), reverse=True)[:_MOST_SHOWN])


def paper_of(engine: Engine, learner: str) -> str:
    """The paper beside which a learner's work at a job stands: the one whose code was given, else the last issued.

    Raises `RecordRefuses` where `learner` is nobody, or may be several.
    """
    papers = whose(held(engine), learner)
    code = read_code(learner)
    return code if code in papers.codes else papers.codes[-1]


def _read(engine: Engine, plan: Plan, job: str, sheet: Path, typed: Typed, beside: Path) -> Observation:
    read = read_observation_sheet(read_file(sheet), sheet.name)
    own = replace(
        read.typed,
        learner=typed.learner or read.typed.learner,
        by=typed.assessor or read.typed.by,
        day=typed.day or read.typed.day,
    )
    faults = list(_of_another_job(read, plan, sheet.name))
    photos, wrong = _photographs([(beside / file, shows) for file, shows in own.photos], within=beside)
    faults += [
        Fault(f"{sheet.name}, photographs", row + 2, 1, says, "put it right, or take the row out")
        for row, says in wrong
    ]
    try:
        found = observed(plan, own, job=_short(job), code="", photos=photos)
    except ObservationFaulty as faulty:
        faults += [Fault(sheet.name, read.rows.get(line, 1), 1, _said(line, says), "put it right, then enter it again")
                   for line, says in faulty.faults]  # fmt: skip
    if faults:
        raise TableFaulty(tuple(faults))
    return replace(found, code=paper_of(engine, own.learner))


def _of_another_job(read: ReadSheet, plan: Plan, file: str) -> Iterator[Fault]:
    title = plan.task.shape.job
    if read.job and read.job != title:
        yield Fault(file, 1, 1, f"this is the sheet of the job `{harmless(read.job)}`", f"expected one of `{title}`")


def _said(line: str, says: str) -> str:
    return f"{harmless(line)}: {says}" if line else says


def _photographs(
    named: Sequence[tuple[Path, str]], within: Path | None = None
) -> tuple[tuple[Photo, ...], list[tuple[int, str]]]:
    """The photographs named, and what is wrong with others by their place: a sheet names none outside its folder."""
    photos: list[Photo] = []
    faults: list[tuple[int, str]] = []
    for place, (path, shows) in enumerate(named):
        if wrong := _wrong(path, shows, within):
            faults.append((place, wrong))
            continue
        with path.open("rb") as picture:
            sha256 = hashlib.file_digest(picture, "sha256").hexdigest()
        photos.append(Photo(file=str(path.resolve()), sha256=sha256, shows=shows))
    return tuple(photos), faults


def _wrong(path: Path, shows: str, within: Path | None) -> str:
    """What is wrong with a photograph that is named; '' where nothing is."""
    told = harmless(path.name)
    try:
        if not is_plain(str(path), _LONGEST_FILE) or not is_plain(shows, _LONGEST_SHOWS):
            return f"the photograph `{told}` is named or described at too great a length, or with unseen characters"
        if within is not None and not path.resolve().is_relative_to(within.resolve()):
            return f"the photograph `{told}` is not in the folder of the sheet"
        if path.suffix.lower() not in _PICTURES:
            return f"`{told}` is no photograph; its name ends in none of {', '.join(sorted(_PICTURES))}"
        if not path.is_file():
            return f"the photograph `{told}` is not there"
        return f"the photograph `{told}` is larger than 60 MB" if path.stat().st_size > _LARGEST else ""
    except (OSError, ValueError):
        return f"the photograph `{told}` cannot be read"


def _enter(engine: Engine, found: Observation, sheet: Path, copies: Path | None) -> KeptObservation:
    kept = keep_observation(engine, found, source=sheet.name, at=datetime.now(UTC))
    if copies is not None and found.photos:
        note_files(engine, list(_copied(found, copies)), [found.code])
    return kept


def _copied(found: Observation, copies: Path) -> Iterator[Path]:
    """Copies the photographs into a folder, each whole, for their owner alone."""
    copies.mkdir(parents=True, exist_ok=True)
    for number, photo in enumerate(found.photos, 1):
        here = Path(photo.file)
        to = copies / f"{found.code}-{found.job}-{found.day}-{number}{here.suffix.lower()}"
        write_whole(to, here.read_bytes(), PRIVATE)
        yield to


def _short(job: str) -> str:
    """A job's short name: as the program or the name of its file has it."""
    short = slug(Path(job).stem)
    if not short:
        raise NotFound(f"the job's file {job} has a name without letters; give it one")
    return short
