"""An appeal against marks: what stood is bound and frozen, another person marks it again, the outcome is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.appeals import APPEALED, Appeal, appeal_of, close_appeal, open_appeal
from courseware.database.given_marks import given_marks, hands, keep_given
from courseware.database.kept_marks import marks_of
from courseware.database.written_files import note_files
from courseware.files.atomic import PRIVATE, one_at_a_time, write_whole
from courseware.files.bank_files import NotFound, read_file
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import Decision, MarkedPaper
from courseware.marking.script_sheet import Scripts
from courseware.papers.codes import read_code
from courseware.quality.appeal_sheet import TypedOutcome, both, outcome_page, outcome_sheet, read_outcome
from courseware.quality.marks_by_hand import HandMark, hand_page, read_hand_marks
from courseware.settings.settings import Settings
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.words import listed
from courseware.workflows.audit_copy import audit_copy
from courseware.workflows.decisions_file import keep_decisions
from courseware.workflows.feedback_files import hand_back
from courseware.workflows.marking import enter_and_mark
from courseware.workflows.quality import write_both
from courseware.workflows.second_marking import refuse_own, scripts_to_mark
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """An appeal, the audit copy of what stood, and the sheet for whoever marks the script again."""

    appeal: Appeal
    frozen: Path
    sheet: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """An appeal that is closed, how many parts have another mark now, and the files that say so."""

    appeal: Appeal
    changed: int
    files: tuple[Path, ...]


def begin_appeal(
    engine: Engine, where: SittingFolder, code: str, settings: Settings, *, reason: str, by: str, day: str
) -> Opened:
    """Opens an appeal on a paper: from now on its answers and marks stay as they are. Writes what is needed for it.

    Raises `NotFound` for a paper that is none of the sitting, and `RecordRefuses` where there is nothing to appeal
    against, or an appeal is open.
    """
    own = standing(engine, where, code)
    if not reason:
        raise NotFound("an appeal is opened for a reason; say why the learner appeals")
    scripts = scripts_to_mark(engine, where, [own.code])
    now = datetime.now(UTC)
    appeal = open_appeal(engine, own.code, own.total, reason=reason, by=by, day=day, at=now)
    frozen = audit_copy(engine, own.code, settings, names=False, out=appeal_folder(where, own.code, day), day=day)
    sheet = re_mark_sheet(frozen.parent, own.code)
    write_whole(sheet, safe_workbook([hand_page(scripts), outcome_page()], day), PRIVATE)
    note_files(engine, [sheet], [own.code])
    return Opened(appeal=appeal, frozen=frozen, sheet=sheet)


def end_appeal(
    engine: Engine,
    where: SittingFolder,
    code: str,
    sheet: Path,
    settings: Settings,
    watch: Watch,
    *,
    by: str,
    names: bool,
    processes: int,
) -> Closed:
    """Enters the re-mark and the outcome of an appeal; where the marks change, by decisions with the appeal's reason.

    Raises `NotFound` or `TableFaulty`: for a re-mark by somebody who has marked the paper before, one that is not
    whole, an outcome that is not written.
    """
    sitting_code = where.sitting.code
    own, appeal, typed, again = _re_marked(engine, where, code, sheet, by)
    out = where.path.resolve().parent
    first = listed(hands(engine, sitting_code).get(own.code, ("–",)))
    now = datetime.now(UTC)
    with one_at_a_time(out, watch.waiting):
        keep_given(engine, sitting_code, again, "appeal", by=by, source=sheet.name, at=now)
        decisions = _decisions(own, again, typed)
        if decisions:
            read = Scripts(scripts=(), decisions=decisions, notes=())
            entered, marked = enter_and_mark(
                engine, where, read, (), assessor=by, role="first", source=APPEALED, at=now
            )
            keep_decisions(engine, where, entered.pending)
        closed = close_appeal(engine, own.code, typed.outcome, reason=typed.reason, by=by, day=typed.day, at=now)
        if decisions:
            with watch.progress("Feedback sheets", len(marked.papers)) as tell:
                hand_back(engine, where, marked, names=names, processes=processes, tell=tell)
    learner = next(paper.learner for paper in where.sitting.papers if paper.code == own.code)
    report = outcome_sheet(own, again, typed, by=by, first=first, name=learner.name, centre=settings.name)
    columns = {"part": 9, "as written": 22, "as it stood": 13, "re-mark": 13, "now": 13, "note": 50}
    workbook = safe_workbook([Page(title="Both", columns=columns, rows=list(both(own, again, typed)))], typed.day)
    folder = appeal_folder(where, own.code, appeal.day)
    files = write_both(engine, folder, f"appeal-outcome-{own.code}", report, workbook, [own.code])
    return Closed(appeal=closed, changed=len(decisions), files=files)


def look_at_outcome(
    engine: Engine, where: SittingFolder, code: str, sheet: Path, *, by: str
) -> tuple[TypedOutcome, tuple[tuple[str, str, str, str, str, str], ...]]:
    """What entering a re-mark would do: its outcome, and its rows as `both` gives them. Nothing is entered.

    Raises as `end_appeal` does.
    """
    own, _, typed, again = _re_marked(engine, where, code, sheet, by)
    return typed, tuple(both(own, again, typed))


def _re_marked(
    engine: Engine, where: SittingFolder, code: str, sheet: Path, by: str
) -> tuple[MarkedPaper, Appeal, TypedOutcome, tuple[HandMark, ...]]:
    """The script as it stands, its open appeal, and the outcome and re-mark on a sheet."""
    own = standing(engine, where, code)
    appeal = appeal_of(engine, own.code)
    if appeal is None or not appeal.is_open:
        raise NotFound(f"no appeal on {own.code} is open")
    typed = read_outcome(read_file(sheet), sheet.name)
    return own, appeal, typed, _again(engine, where, own, sheet, by, whole=typed.outcome != "withdrawn")


def appeal_folder(where: SittingFolder, code: str, day: str) -> Path:
    """Where all stands that an appeal opened on a day (ISO 8601) writes."""
    return where.path.resolve().parent / f"appeal-{code}-{day}"


def re_mark_sheet(folder: Path, code: str) -> Path:
    """The workbook in an appeal's folder on which the paper is marked again."""
    return folder / f"re-mark-{code}.xlsx"


def frozen_copy(folder: Path, code: str) -> Path:
    """The audit copy in an appeal's folder."""
    return folder / f"audit-{code}.pdf"


def standing(engine: Engine, where: SittingFolder, code: str) -> MarkedPaper:
    """The last script of a paper as it is marked. Raises `NotFound` where there is none."""
    meant = read_code(code) or code
    if meant not in {paper.code for paper in where.sitting.papers}:
        raise NotFound(f"the sitting {where.sitting.code} has no paper {code}; copy the code from the paper")
    found = [one for one in marks_of(engine, where.sitting.code, "first") if one.code == meant and one.marks]
    if not found:
        raise NotFound(f"the paper {meant} is not marked; there is nothing to appeal against")
    return found[-1]


def _again(
    engine: Engine, where: SittingFolder, own: MarkedPaper, sheet: Path, by: str, *, whole: bool
) -> tuple[HandMark, ...]:
    """The re-mark on a sheet: by somebody else, and of every part where it must be whole."""
    read = read_hand_marks(read_file(sheet), sheet.name, scripts_to_mark(engine, where, [own.code]))
    marks = tuple(one for one in read if not one.withdrawn)  # a mark that is taken back is none of a re-mark
    before = hands(engine, where.sitting.code).get(own.code, ())
    second = [mark.by for mark in given_marks(engine, where.sitting.code, "second") if mark.code == own.code]
    refuse_own(marks, {own.code: (*before, *second)}, by, sheet.name, "one who marks it again")
    missing = [mark.label for mark in own.marks if mark.label not in {one.label for one in marks}]
    if whole and missing:
        raise NotFound(f"{sheet.name} has no mark yet for {listed(missing)}; a re-mark is of the whole script")
    return marks


def _decisions(own: MarkedPaper, again: Sequence[HandMark], typed: TypedOutcome) -> tuple[Decision, ...]:
    """Where the marks are changed: a decision for each part that was marked otherwise again."""
    if typed.outcome != "changed":
        return ()
    stood = {mark.label: mark.marks for mark in own.marks}
    reason = f"Appeal: {typed.reason}"
    return tuple(
        Decision(code=own.code, label=one.label, marks=one.marks, reason=reason, comment=one.note)
        for one in again
        if one.marks != stood[one.label]
    )
