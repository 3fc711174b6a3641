"""A sitting marked: its sheet read and entered into the record, and all of it marked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.desk.issuing import record_text
from courseware.desk.shelf import NotFound, read_file
from courseware.desk.sitting_files import MARKED, RECORD, SHEET, TUTOR
from courseware.evidence.deciding import differing
from courseware.evidence.entering import Role
from courseware.evidence.kept_decisions import KeptDecision, Lapsed
from courseware.evidence.kept_marks import keep_marks
from courseware.evidence.scripts import Entered, decisions_of, enter_scripts, lapsed_decisions, scripts_of
from courseware.evidence.sittings import take
from courseware.evidence.written import note_files
from courseware.marking.mark import Marked, mark_scripts
from courseware.marking.marks import Decision, Question
from courseware.marking.script_sheet import Scripts, read_scripts
from courseware.papers.record import read_record
from courseware.papers.sitting import Sitting
from courseware.printing.workers import sitting_in

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A sitting's folder, its record's text and the sitting."""

    folder: Path
    text: str
    sitting: Sitting


def place_of(named: str) -> Place:
    """The sitting in a folder, or by its sitting.json. Raises `NotFound` or `RecordFaulty`."""
    path = Path(named)
    if not path.exists():
        raise NotFound(f"there is no sitting {named}; name its folder, such as output/2026-11-25-opening-sizes")
    folder = path if path.is_dir() else path.parent
    text = record_text(folder / RECORD if path.is_dir() else path)
    return Place(folder=folder, text=text, sitting=read_record(text))


def marked_folder(place: Place) -> Path:
    """The sitting's folder of what comes of marking, made where there is none.

    Raises `NotFound` where a link or a file stands there.
    """
    folder = place.folder / MARKED
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise NotFound(f"{folder} is not a folder of its own; move it away, then mark again")
    folder.mkdir(mode=0o700, exist_ok=True)
    return folder


def read_sheet(place: Place, named: str | None) -> Scripts:
    """The marking sheet named, else the sitting's own. Raises `NotFound`, `SheetFaulty` or `ClassListFaulty`."""
    path = Path(named) if named else place.folder / TUTOR / SHEET
    return read_scripts(read_file(path), path.name, place.sitting)


def enter_and_mark(
    engine: Engine,
    place: Place,
    sheet: Scripts,
    decisions: Sequence[Decision],
    *,
    assessor: str,
    role: Role,
    source: str,
    at: datetime,
    kept: Sequence[KeptDecision] = (),
) -> tuple[Entered, Marked]:
    """Enters a sheet into the record, then marks every script that the record has of this sitting.

    So two assessors, each with a part of the class, end with the whole of it. `kept` are the decisions kept beside the
    sitting, for a record that was made anew.
    """
    code = place.sitting.code
    take(engine, place.sitting, place.text, at=at)
    note_files(engine, [file for file in [place.folder / RECORD] if file.is_file()])
    had = {script.code for script in scripts_of(engine, code, role)} - {script.code for script in sheet.scripts}
    cleared = {script.code: script for script in sheet.blank if script.code in had}
    typed = (*sheet.scripts, *cleared.values())
    entered = enter_scripts(
        engine, code, typed, sheet.decisions,
        assessor=assessor, role=role, source=source, at=at, kept=kept, typed_decisions=decisions,
    )  # fmt: skip
    sitting, sources = sitting_in(place.text)
    standing = decisions_of(engine, code, role)
    marked = mark_scripts(sitting, scripts_of(engine, code, role), standing, sources)
    lapsed = tuple(_lapsed(one) for one in (*entered.lapsed, *lapsed_decisions(engine, code, role)))
    keep_marks(engine, code, marked.attempts, by=assessor, role=role, at=at)
    stand = (one for one in marked.papers if one.status or any(mark.how != "blank" for mark in one.marks))
    questions = (*marked.questions, *lapsed)
    told = replace(entered, differing=differing(sheet.decisions, standing))
    return told, replace(marked, papers=tuple(stand), questions=questions)  # a row cleared since is a paper not in


def _lapsed(one: Lapsed) -> Question:
    """A decision whose answer has changed, put to the assessor again."""
    decided = one.decision
    why = (
        f"the decision ({decided.marks} of its marks: {decided.reason.rstrip('.')}) was made on `{one.before}` and has "
        "lapsed; decide again, in other words, or take it out"
    )
    return Question(code=decided.code, label=decided.label, line=one.line, written=one.now, why=why)
