"""A job's folder: read from its file, worked out, printed whole."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from courseware.banks import Bank, Exercise, SafetyNotes, read_bank
from courseware.files.atomic import begin, finish, one_at_a_time, slug, write_whole
from courseware.files.bank_files import NotFound, read_file, shipped_folder
from courseware.jobs.plan import Plan, plan_of
from courseware.jobs.sheets import job_sheets
from courseware.jobs.task import ProfileShape, Task, own_givens, read_profiles, read_task
from courseware.jobs.workbooks import observation_workbook, stores_workbook
from courseware.settings.settings import DEFAULTS, Settings
from courseware.trade import FORMATS, UK_METRIC

TOLERANCES, WORKSHEET = "tolerances.yaml", "worksheet.yaml"


def shipped_jobs() -> dict[str, Path]:
    """The jobs that come with the program, by their short names."""
    return {
        p.stem: p for p in sorted((shipped_folder() / "jobs").glob("*.yaml")) if p.name not in (TOLERANCES, WORKSHEET)
    }


def find_job(name: str, settings: Settings = DEFAULTS) -> Task:
    """The task in a file, or of a shipped job, by the centre's settings.

    A `tolerances.yaml` beside it is used before the shipped one.
    """
    path = Path(name) if Path(name).is_file() else shipped_jobs().get(name)
    if path is None:
        raise NotFound(f"there is no job {name}; shipped jobs are {', '.join(shipped_jobs())}")
    known = profiles_beside(path.parent)
    return read_task(read_file(path), path.name, known, settings, shipped=not Path(name).is_file())


def profiles_beside(folder: Path) -> tuple[ProfileShape, ...]:
    """The tolerance profiles for the jobs of a folder: its own `tolerances.yaml`, else the shipped ones."""
    beside = folder / TOLERANCES
    profiles = beside if beside.is_file() else shipped_folder() / "jobs" / TOLERANCES
    return read_profiles(read_file(profiles), profiles.name)


def has_worksheets(format: str) -> bool:
    """Whether worksheets can be made on a job in bricks of this format, by its name."""
    return FORMATS.get(format) == UK_METRIC


def worksheet(task: Task) -> tuple[Bank, tuple[Exercise, ...]]:
    """The worksheet's bank, and its exercises with their givens set to the job's own, where they can be."""
    if not has_worksheets(task.shape.format):
        raise NotFound("worksheets on a job are made for UK metric bricks; leave --group and --learners out")
    path = shipped_folder() / "jobs" / WORKSHEET
    bank = read_bank(read_file(path), path.name, task.settings.of_a_sitting())
    return bank, tuple(filter(None, (_set_to(exercise, own_givens(task)) for exercise in bank.exercises)))


def _set_to(exercise: Exercise, own: Mapping[str, int | str]) -> Exercise | None:
    if any(own.get(given.name) not in given.values for given in exercise.givens):
        return None
    givens = tuple(replace(given, values=(own[given.name],)) for given in exercise.givens)
    return replace(exercise, givens=givens)


def write_job(task: Task, notes: SafetyNotes | None, date: str, out: Path, waiting: Callable[[], None]) -> Path:
    """Writes the job's folder under `out`, whole or not at all. Returns it."""
    from courseware.printing.render import job_pdf

    plan: Plan = plan_of(task)
    name = "-".join(filter(None, (date, slug(task.shape.job) or "job")))
    with one_at_a_time(out, waiting):
        request = hashlib.sha256(repr((task, date)).encode()).hexdigest()
        making = begin(out, name, request)
        for sheet in job_sheets(plan, notes, date):
            write_whole(making.path / f"{sheet.file}.pdf", job_pdf(sheet))
        write_whole(making.path / "stores-order.xlsx", stores_workbook(plan, date))
        write_whole(making.path / "observation-sheet.xlsx", observation_workbook(plan, date))
        return finish(making)
