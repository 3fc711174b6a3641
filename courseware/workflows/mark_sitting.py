"""A sitting marked from its sheet to what is handed back, as one step: for the command line, or whatever else asks."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.given_marks import SETTLED
from courseware.database.scripts import Entered
from courseware.database.typed_cells import on_screen
from courseware.feedback.settle_sheet import read_settled
from courseware.files.atomic import PRIVATE, one_at_a_time, write_whole
from courseware.files.bank_files import NotFound, read_file
from courseware.files.record_location import opened, record_url
from courseware.files.sitting_files import MARKED, SETTLE, SHEET, TUTOR
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.mark import Marked
from courseware.marking.marking_sheet import marking_sheet
from courseware.marking.marks import Decision
from courseware.marking.script_sheet import Scripts, decision
from courseware.papers.sitting import Sitting
from courseware.quality.second_marking_sheet import is_settling
from courseware.workflows.decisions_file import keep_decisions, kept_decisions
from courseware.workflows.feedback_files import hand_back, to_look_at
from courseware.workflows.marking import enter_and_mark, read_sheet
from courseware.workflows.retaking import learners_of
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import URL

TypedDecision = tuple[str, str, str, str]  # who (code, reference or name), part, marks ("" for a comment), reason


class NothingToMark(ValueError):
    """No answers and no decisions stand in the sheet or in the record, and none were typed."""


class NotADecision(ValueError):
    """A typed decision that cannot stand, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkOptions:
    """How a sitting is marked: by whom, with names on the sheets or not.

    `record` is the record's file or URL, None for the one in the output folder.
    """

    assessor: str
    names: bool = False
    record: str | None = None
    processes: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedAndWritten:
    """What came of it: the marks, where all that is handed back was written, and what waits for a look."""

    marked: Marked
    folder: Path
    to_look_at: int = 0


def mark_sitting(
    where: SittingFolder,
    sheet: str | None,
    typed: Iterable[TypedDecision],
    options: MarkOptions,
    watch: Watch,
    *,
    when_marked: Callable[[Entered, Marked], None],
) -> MarkedAndWritten:
    """Reads the sheet named, else the sitting's own; enters it, marks all scripts, writes what comes of that.

    `when_marked` hears what was entered and marked before anything is written. Raises `NothingToMark`, `NotADecision`,
    `NotFound`, `SheetFaulty` or `TableFaulty`; then nothing was entered.
    """
    read = read_sheet(where, sheet)
    for note in read.notes:
        watch.note(note)
    decisions = (*_settled(where, read, watch), *_decisions(where.sitting, typed))
    out = where.path.resolve().parent
    url = record_url(options.record, out)
    if not (read.scripts or read.decisions or decisions or _typed_on_screen(url, where.sitting.code)):
        raise NothingToMark
    with one_at_a_time(out, watch.waiting), opened(url, make=True) as engine:
        entered, marked = enter_and_mark(
            engine,
            where,
            read,
            decisions,
            assessor=options.assessor,
            role="first",
            source=_source(sheet),
            at=datetime.now(UTC),
            kept=kept_decisions(where),
        )
        keep_decisions(engine, where, entered.pending)
        when_marked(entered, marked)
        with watch.progress("Feedback sheets", len(marked.papers)) as tell:
            folder = hand_back(engine, where, marked, names=options.names, processes=options.processes, tell=tell)
        return MarkedAndWritten(marked=marked, folder=folder, to_look_at=len(to_look_at(marked)))


def _typed_on_screen(url: URL, sitting: str) -> bool:
    """Whether the record has anything of a sitting that no sheet needs to say again."""
    try:
        with opened(url, make=False) as engine:
            return bool(on_screen(engine, sitting, "first").scripts)
    except NotFound:
        return False


def _source(sheet: str | None) -> str:
    """The sheet's name as the record keeps it; one on which two markers settle goes by one name, however called."""
    if sheet is None:
        return SHEET
    path = Path(sheet)
    return SETTLED if is_settling(read_file(path), path.name) else path.name


def fill_with_invented_answers(where: SittingFolder) -> None:
    """Fills the marking sheet of a demonstration; slips are planted in the answers."""
    write_whole(where.path / TUTOR / SHEET, marking_sheet(where.sitting, invented_scripts(where.sitting)), PRIVATE)


def _settled(where: SittingFolder, read: Scripts, watch: Watch) -> tuple[Decision, ...]:
    """What the assessor filled in on the sheet of answers that waited; told where an answer is another since."""
    file = where.path / MARKED / SETTLE
    if not file.is_file():
        return ()
    written = {(script.code, label): text for script in read.scripts for label, text in script.cells.items()}
    settled = read_settled(read_file(file), SETTLE, where.sitting, written)
    for told in settled.lapsed:
        watch.note(told)
    return settled.decisions


def _decisions(sitting: Sitting, typed: Iterable[TypedDecision]) -> Sequence[Decision]:
    found: list[Decision] = []
    for who, part, marks, reason in typed:
        [paper] = learners_of(sitting, [who])
        read = decision(paper.code, part, marks, reason, sitting=sitting)
        if isinstance(read, str):
            raise NotADecision(read)
        found.append(read)
    return found
