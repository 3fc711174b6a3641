"""A sitting marked: its sheet read and entered into the record, and all of it marked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.deciding import differing
from courseware.database.entering import Role
from courseware.database.how_far import HowFar, how_far
from courseware.database.kept_decisions import KeptDecision, Lapsed
from courseware.database.kept_marks import by_hand, keep_marks, marks_of
from courseware.database.register import withdrawn_papers
from courseware.database.scripts import Decisions, Entered, decisions_of, enter_scripts, scripts_of
from courseware.database.sittings import take
from courseware.database.states import released_scripts
from courseware.database.typed_cells import Otherwise, on_screen, typed_otherwise
from courseware.database.written_files import note_files
from courseware.files.bank_files import NotFound, read_file
from courseware.files.sitting_files import MARKED, SHEET, SITTING, TUTOR
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.attempts import numbered_attempts
from courseware.marking.mark import Marked, mark_scripts
from courseware.marking.marks import Decision, MarkedPaper, Query
from courseware.marking.script_sheet import Scripts, read_scripts
from courseware.printing.workers import sitting_in

if TYPE_CHECKING:
    from sqlalchemy import Engine


def marked_folder(where: SittingFolder) -> Path:
    """The sitting's folder of what comes of marking, made where there is none.

    Raises `NotFound` where a link or a file stands there.
    """
    folder = where.path / MARKED
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise NotFound(f"{folder} is not a folder of its own; move it away, then mark again")
    folder.mkdir(mode=0o700, exist_ok=True)
    return folder


def read_sheet(where: SittingFolder, named: str | None) -> Scripts:
    """The marking sheet named, else the sitting's own. Raises `NotFound`, `SheetFaulty` or `TableFaulty`."""
    path = Path(named) if named else where.path / TUTOR / SHEET
    return read_scripts(read_file(path), path.name, where.sitting)


def enter_and_mark(
    engine: Engine,
    where: SittingFolder,
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
    sitting, for a record that was made again.
    """
    code = where.sitting.code
    take(engine, where.sitting, where.text, at=at)
    note_files(engine, [file for file in [where.path / SITTING] if file.is_file()])
    had = {script.code for script in scripts_of(engine, code, role)} - {script.code for script in sheet.scripts}
    cleared = {script.code: script for script in sheet.blank if script.code in had}
    typed = (*sheet.scripts, *cleared.values())
    entered = enter_scripts(
        engine, code, typed, sheet.decisions,
        assessor=assessor, role=role, source=source, at=at, kept=kept, typed_decisions=decisions,
    )  # fmt: skip
    decided = decisions_of(engine, code, role)
    marked = _marked(engine, where.text, role, decided, entered.lapsed)
    keep_marks(engine, code, marked.attempts, by=assessor, role=role, at=at)
    return replace(entered, differing=differing(sheet.decisions, decided.standing)), marked


def marked_as_it_stands(engine: Engine, where: SittingFolder, role: Role) -> Marked:
    """Every script that the record has of a sitting marked, and nothing kept of it: as `enter_and_mark` would."""
    return marked_at(engine, where.text, role, how_far(engine))


@lru_cache(maxsize=4)
def marked_at(engine: Engine, text: str, role: Role, _: HowFar) -> Marked:
    """The same for the sitting in `text`, worked out once for each state of the record."""
    code = sitting_in(text)[0].code
    if not on_screen(engine, code, role).scripts:  # the record need not even know the sitting
        return Marked(papers=(), attempts=(), held=(), questions=())
    return _marked(engine, text, role, decisions_of(engine, code, role))


def _marked(engine: Engine, text: str, role: Role, decided: Decisions, lapsed: Sequence[Lapsed] = ()) -> Marked:
    sitting, sources = sitting_in(text)
    code = sitting.code
    marked = mark_scripts(sitting, scripts_of(engine, code, role), decided.standing, sources)
    if role == "first":
        marked = _as_released(engine, code, marked)
    stand = (one for one in marked.papers if one.status or any(mark.how != "blank" for mark in one.marks))
    asked = (*map(_lapsed, (*lapsed, *decided.lapsed)), *map(_typed_otherwise, typed_otherwise(engine, code, role)))
    questions = (*marked.questions, *asked)
    return replace(  # a row cleared since is a paper not in
        marked, papers=tuple(stand), questions=questions, withdrawn=withdrawn_papers(engine, code)
    )


def _typed_otherwise(one: Otherwise) -> Query:
    """A cell that two typed differently, put to the assessors."""
    why = f"{one.stands_by or 'nobody'} typed `{one.stands}`, which stands; {one.by} typed `{one.text}`"
    why += " without having seen it; settle it in the grid"
    return Query(code=one.code, label=one.label, line=0, written=one.stands, why=why)


def _as_released(engine: Engine, code: str, marked: Marked) -> Marked:
    """The marks of released scripts as they were released or decided since, whatever comes out of them today."""
    released = released_scripts(engine, code)
    if not released:
        return marked
    stand = {(paper.code, attempt): paper for attempt, paper in numbered_attempts(marks_of(engine, code, "first"))}
    attempts = tuple(
        _as_it_stood(paper, stand[paper.code, attempt]) if (paper.code, attempt) in released & stand.keys() else paper
        for attempt, paper in numbered_attempts(marked.attempts)
    )
    last = {paper.code: paper for paper in attempts}
    return replace(marked, attempts=attempts, papers=tuple(last[paper.code] for paper in marked.papers))


def _as_it_stood(paper: MarkedPaper, stood: MarkedPaper) -> MarkedPaper:
    before = {mark.label: mark for mark in stood.marks}
    marks = (mark if by_hand(mark, before.get(mark.label)) else before[mark.label] for mark in paper.marks)
    return replace(paper, marks=tuple(marks))


def _lapsed(one: Lapsed) -> Query:
    """A decision whose answer has changed, put to the assessor again."""
    decided = one.decision
    why = (
        f"the decision ({decided.marks} of its marks: {decided.reason.rstrip('.')}) was made on `{one.before}` and has "
        "lapsed; decide again, in other words, or take it out"
    )
    return Query(code=decided.code, label=decided.label, line=one.line, written=one.now, why=why)
