"""Second marking: scripts as written go out without the program's marks, marks by part come back and are compared."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.given_marks import hands, keep_given
from courseware.database.kept_marks import marks_of
from courseware.files.atomic import PRIVATE, write_whole
from courseware.files.bank_files import NotFound, read_file
from courseware.files.sitting_files import SECOND_SHEET, TUTOR
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.attempts import numbered_attempts
from courseware.marking.marks import MarkedPaper
from courseware.papers.compose import compose_key
from courseware.printing.workers import sitting_in
from courseware.quality.marks_by_hand import (
    HandMark,
    PartToMark,
    ScriptToMark,
    hand_page,
    read_hand_marks,
    script_to_mark,
)
from courseware.quality.second_marking import Differences, same_marker
from courseware.quality.second_marking_sheet import second_sheet, second_workbook
from courseware.settings.settings import Settings
from courseware.spreadsheets.rows import TableFaulty
from courseware.spreadsheets.xlsx_out import safe_workbook
from courseware.text_files.faults import Fault
from courseware.words import count
from courseware.workflows.marking import marked_folder
from courseware.workflows.quality import compare_markers, write_both

if TYPE_CHECKING:
    from sqlalchemy import Engine

_TWO_MARKERS = "two-markers"


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondMarked:
    """What came of a second marker's sheet: how many marks were new, the comparison, the files it was written to."""

    added: int
    found: Differences
    files: tuple[Path, ...]


def scripts_to_mark(engine: Engine, where: SittingFolder, codes: Sequence[str] = ()) -> tuple[ScriptToMark, ...]:
    """The last script of each paper that is marked, as it was written: of all papers, or of these."""
    last = _last_scripts(engine, where.sitting.code, codes)
    sitting, sources = sitting_in(where.text)
    places = {paper.code: place for place, paper in enumerate(sitting.papers)}
    return tuple(
        script_to_mark(paper, attempt, compose_key(sitting, places[paper.code], sources))
        for attempt, paper in last.values()
    )


def scripts_as_written(engine: Engine, sitting: str) -> tuple[ScriptToMark, ...]:
    """The same of all papers, in a fraction of the time, with neither question nor key in any part."""
    return tuple(
        ScriptToMark(
            code=code,
            attempt=attempt,
            shown=code,
            parts=tuple(
                PartToMark(label=one.label, ask="", unit="", written=one.written, key="", of=one.of)
                for one in paper.marks
            ),
        )
        for code, (attempt, paper) in _last_scripts(engine, sitting).items()
    )


def _last_scripts(engine: Engine, sitting: str, codes: Sequence[str] = ()) -> dict[str, tuple[int, MarkedPaper]]:
    last: dict[str, tuple[int, MarkedPaper]] = {}
    for attempt, paper in numbered_attempts(marks_of(engine, sitting, "first")):
        if paper.marks and (not codes or paper.code in codes):
            last[paper.code] = (attempt, paper)
    return last


def write_second_sheet(engine: Engine, where: SittingFolder) -> tuple[Path, bool]:
    """Writes the second marker's sheet, unless it is there already; says whether it is new.

    Raises `NotFound` where no script is marked yet.
    """
    path = where.path / TUTOR / SECOND_SHEET
    if path.exists():
        return path, False
    scripts = scripts_to_mark(engine, where)
    if not scripts:
        raise NotFound(f"no script of the sitting {where.sitting.code} is marked yet; mark them first")
    path.parent.mkdir(mode=0o700, exist_ok=True)
    write_whole(path, safe_workbook([hand_page(scripts)], where.sitting.date), PRIVATE)
    return path, True


def enter_second(
    engine: Engine, where: SittingFolder, sheet: Path, settings: Settings, *, marker: str, names: bool
) -> SecondMarked:
    """Enters a second marker's sheet, compares the two markings and writes what is to be settled.

    Raises `NotFound` or `TableFaulty`; marks of a paper that `marker` marked first are refused, and then none is
    entered. An earlier comparison is left as it is.
    """
    marks = read_hand_marks(read_file(sheet), sheet.name, scripts_to_mark(engine, where))
    if not marks:
        raise NotFound(f"{sheet.name} has no marks yet; fill in `marks`, then enter it again")
    refuse_own(marks, hands(engine, where.sitting.code), marker, sheet.name, "second marker")
    now = datetime.now(UTC)
    added = keep_given(engine, where.sitting.code, marks, "second", by=marker, source=sheet.name, at=now)
    return _compared(engine, where, settings, added, names=names)


def refuse_own(
    marks: Sequence[HandMark], first: dict[str, tuple[str, ...]], marker: str, file: str, as_what: str
) -> None:
    """Raises `TableFaulty` where somebody marks again what they marked first."""
    own = [
        code
        for code in dict.fromkeys(mark.code for mark in marks)
        if same_marker(marker) in map(same_marker, first.get(code, ()))
    ]
    if own:
        wrong = f"{marker} marked {', '.join(own[:5])}{' …' if len(own) > 5 else ''} first"
        raise TableFaulty((Fault(file, 1, 1, wrong, f"the {as_what} is another person; take these rows out"),))


def _compared(engine: Engine, where: SittingFolder, settings: Settings, added: int, *, names: bool) -> SecondMarked:
    sitting, day = where.sitting, date.today().isoformat()
    found = compare_markers(engine, sitting.code, settings)
    if not found.compared:
        return SecondMarked(added=added, found=found, files=())
    shown = {paper.code: paper.learner.name for paper in sitting.papers if paper.learner.name} if names else {}
    folder = marked_folder(where)
    sheet, workbook = second_sheet(found, sitting, day, shown), second_workbook(found, sitting, day, shown)
    return SecondMarked(
        added=added, found=found, files=write_both(engine, folder, _unused(folder, _TWO_MARKERS), sheet, workbook)
    )


def second_lines(done: SecondMarked, where: SittingFolder) -> Iterator[str]:
    """What to tell of a comparison, line by line."""
    found = done.found
    if found.waiting:
        yield f"Not finished yet, so nothing is shown of: {', '.join(found.waiting)}."
    if not found.compared:
        return
    yield f"{len(found.differences)} of {found.parts} parts marked differently, on {count(len(found.both), 'paper')}."
    if found.alone:
        yield (
            f"{found.alone} parts have one person's mark alone and do not count; the program's own reading counts "
            "where your centre's settings say `first_marker: program`."
        )
    yield from (f"  to settle: {file}" for file in done.files)
    if found.differences:
        yield "When `marks` and `reason` are filled in on its sheet:"
        yield f"  courseware mark {where.path} {done.files[1]} --assessor NAME"


def _unused(folder: Path, stem: str) -> str:
    number = 1
    while (folder / f"{stem}{f'-{number}' if number > 1 else ''}.pdf").exists():
        number += 1
    return f"{stem}-{number}" if number > 1 else stem
