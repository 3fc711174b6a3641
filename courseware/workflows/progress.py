"""A class's saved practice files made into one sheet and its workbook."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened
from courseware.practice.class_progress import newest_of_each, progress_sheet, progress_workbook
from courseware.practice.saved_file import PracticeFaulty, SavedPractice, read_practice
from courseware.text_files.faults import Fault
from courseware.workflows.quality import write_both

if TYPE_CHECKING:
    from sqlalchemy import URL

MOST_FILES = 2000


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassProgress:
    """The learners on the sheet, the files written, and what should be known of the files read, a line each."""

    learners: tuple[SavedPractice, ...]
    files: tuple[Path, ...]
    notes: tuple[str, ...]


def class_progress(
    saved: Sequence[tuple[str, bytes]], centre: str, out: Path, day: str, record: URL | None = None
) -> ClassProgress:
    """Writes the sheet (PDF) and its workbook from saved practices, each a file's name with its bytes.

    Both are noted in the `record`, as other class sheets are, where one is named; it has to be there.

    Raises `PracticeFaulty` with a fault for each file that is none, and `NotFound` where there are none.
    """
    if not saved:
        raise NotFound("no saved practice is named")
    if len(saved) > MOST_FILES:
        raise NotFound(f"{len(saved)} files are named, and one sheet takes {MOST_FILES}")
    learners, left = newest_of_each(_read(saved, date.fromisoformat(day)))
    sheet, workbook = progress_sheet(learners, day, centre), progress_workbook(learners, day)
    with nullcontext() if record is None else opened(record, make=False) as engine:
        files = write_both(engine, out, f"progress-{day}", sheet, workbook)
    doubtful = tuple(f"{one.file} is not to be relied on: it {why}." for one in learners for why in one.doubts)
    return ClassProgress(learners=learners, files=files, notes=(*left, *doubtful))


def _read(saved: Sequence[tuple[str, bytes]], today: date) -> list[SavedPractice]:
    found: list[SavedPractice] = []
    faults: list[Fault] = []
    for name, data in saved:
        try:
            found.append(read_practice(data, name, today))
        except PracticeFaulty as faulty:
            faults += faulty.faults
    if faults:
        raise PracticeFaulty(tuple(faults))
    return found
