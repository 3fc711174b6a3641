"""A tutor's own jobs: listed, begun from a shipped one, changed value by value, tried and saved in their own folder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from courseware.files.bank_files import NotFound
from courseware.files.own_files import OwnText, own_file, own_files, save_again, save_new
from courseware.jobs.task import Task
from courseware.jobs.tried import Tried, job_values, try_job
from courseware.settings.settings import Settings
from courseware.text_files.faults import FileFaulty
from courseware.text_files.yaml_edit import Path as Keys
from courseware.text_files.yaml_edit import with_values
from courseware.workflows.jobs import TOLERANCES, profiles_beside, shipped_jobs

JOBS = "jobs"  # the folder of a tutor's own jobs, in the folder of work


@dataclass(frozen=True, slots=True, kw_only=True)
class JobText(OwnText):
    """A job's file as it stands."""

    @property
    def values(self) -> dict[Keys, str]:
        """Its values as they are typed; none where the text does not read."""
        try:
            return job_values(self.text, self.path.name)
        except FileFaulty:
            return {}

    @property
    def title(self) -> str:
        """What is built, else the file's name."""
        return self.values.get(("job",), self.name)


class JobCannotBe(ValueError):
    """A job that cannot be built is not saved and has no sheets."""

    def __init__(self, tried: Tried) -> None:
        super().__init__("; ".join(one.says for one in tried.told))
        self.tried = tried


def own_jobs(work: Path) -> tuple[JobText, ...]:
    """The jobs in the tutor's own folder, those that cannot be read among them."""
    return tuple(JobText.listed(name, path) for name, path in own_files(work / JOBS, frozenset({TOLERANCES})).items())


def examples() -> tuple[JobText, ...]:
    """The jobs that come with the program."""
    return tuple(JobText.listed(name, path) for name, path in shipped_jobs().items())


def open_own(work: Path, name: str) -> JobText:
    """One of the tutor's own jobs. Raises `NotFound`."""
    return JobText.opened(name, own_file(work / JOBS, name))


def open_example(name: str) -> JobText:
    """One of the shipped jobs. Raises `NotFound`."""
    found = shipped_jobs().get(name)
    if found is None:
        raise NotFound(f"no job named {name} comes with the program")
    return JobText.opened(name, found)


def changed(job: JobText, values: Mapping[Keys, str | None]) -> str:
    """The job's text with these values; what is not among them stays as it was typed. Raises `FileFaulty`."""
    return with_values(job.text, values, job.path.name)


def tried(job: JobText, text: str, work: Path, settings: Settings) -> Tried:
    """What becomes of a job's text, by the tolerance profiles of the tutor's own folder where it has any."""
    return try_job(text, job.path.name, profiles_beside(work / JOBS), settings)


def save_job(work: Path, title: str, text: str, settings: Settings) -> str:
    """Saves a job as a new file of the tutor's own, named after its title. Returns its short name.

    Raises `JobCannotBe`.
    """
    _task(work / JOBS / "job.yaml", text, settings)
    return save_new(work / JOBS, title, text).stem


def save_changed(job: JobText, text: str, was: str, settings: Settings) -> None:
    """Saves an own job over itself. Raises `JobCannotBe`, and `ChangedMeanwhile` where it is not what it `was`."""
    _task(job.path, text, settings)
    save_again(job.path, text, was)


def task_of(job: JobText, settings: Settings) -> Task:
    """The job as it is saved. Raises `JobCannotBe`."""
    return _task(job.path, job.text, settings)


def _task(path: Path, text: str, settings: Settings) -> Task:
    found = try_job(text, path.name, profiles_beside(path.parent), settings)
    if found.task is None:
        raise JobCannotBe(found)
    return found.task
