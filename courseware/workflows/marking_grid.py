"""The grid of a sitting on the screen: learners by parts, each cell kept as it is typed; and what stands beside a cell.

What is typed goes into the record as a marking sheet's cells do, one at a time; marking it is `mark_sitting`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from courseware.database.entering import STATUS, Role
from courseware.database.errors import RecordRefuses
from courseware.database.scripts import decisions_of
from courseware.database.sittings import take
from courseware.database.typed_cells import (
    CellKey,
    OnScreen,
    Otherwise,
    SavedCell,
    TypedCell,
    on_screen,
    type_cell,
    typed_otherwise,
)
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import Mark, MarkedPaper, Script
from courseware.marking.one_cell import CellRead, read_cell, read_paper
from courseware.marking.part_kind import MARKING_KINDS
from courseware.marking.script_sheet import LONGEST_CELL, read_status
from courseware.papers.compose import compose_exercise
from courseware.papers.sheets import AskedPart, KeyAnswer, KeyExercise
from courseware.papers.sitting import IssuedExercise, IssuedPaper, Sitting
from courseware.printing.workers import sitting_in
from courseware.text_files.faults import harmless, unseen

if TYPE_CHECKING:
    from sqlalchemy import Engine

NOT_REACHED = "nr"


class CellRefused(ValueError):
    """A cell that cannot be kept as it was typed, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GridColumn:
    """A part in the grid: `begins` where it is the first of its exercise."""

    label: str
    unit: str
    of: int
    begins: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRow:
    """A script in the grid: each cell as written, in the order of the columns. `number` is its paper's, from 1."""

    code: str
    attempt: int
    number: int
    name: str
    reference: str
    status: str
    cells: tuple[str, ...]

    @property
    def empty(self) -> bool:
        """Whether nothing of it is in yet."""
        return not self.status and not any(text.strip() for text in self.cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingGrid:
    """A sitting's scripts as they stand, a row for each paper and each time that it was handed in again."""

    columns: tuple[GridColumn, ...]
    rows: tuple[GridRow, ...]
    newest: int  # the number of the newest thing typed
    otherwise: tuple[Otherwise, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideCell:
    """All that an assessor wants to see beside a cell: the question of this learner's variant, and its key."""

    code: str
    attempt: int
    label: str
    name: str
    exercise: KeyExercise
    asked: AskedPart
    item: str  # of a row of a table, what it is
    how_to_write: str
    answer: KeyAnswer
    typed: str
    read: CellRead
    earlier: tuple[Mark, ...]  # of the exercise's earlier parts, as this learner answered them
    marked: MarkedPaper | None
    otherwise: tuple[Otherwise, ...]


def marking_grid(engine: Engine, where: SittingFolder, role: Role = "first") -> MarkingGrid:
    """The grid as it stands. A sitting that the record does not have yet is a grid of blanks."""
    sitting = where.sitting
    stands = on_screen(engine, sitting.code, role)
    rows = [row for number, paper in enumerate(sitting.papers, 1) for row in _rows(number, paper, stands)]
    return MarkingGrid(
        columns=_columns(sitting),
        rows=tuple(rows),
        newest=stands.newest,
        otherwise=typed_otherwise(engine, sitting.code, role),
    )


def typed_since(engine: Engine, where: SittingFolder, number: int, role: Role = "first") -> MarkingGrid:
    """The rows in which anything was typed after that number, whoever typed it, and all cells still unsettled."""
    sitting = where.sitting
    stands = on_screen(engine, sitting.code, role, number)
    numbers = {paper.code: place for place, paper in enumerate(sitting.papers, 1)}
    rows = [
        _row(numbers[code], sitting.papers[numbers[code] - 1], attempt, script)
        for (code, attempt), script in stands.scripts.items()
        if code in numbers
    ]
    unsettled = typed_otherwise(engine, sitting.code, role)
    return MarkingGrid(columns=(), rows=tuple(rows), newest=stands.newest, otherwise=unsettled)


def keep_cell(
    engine: Engine, where: SittingFolder, cell: TypedCell, *, assessor: str, at: datetime, role: Role = "first"
) -> SavedCell:
    """Keeps one cell; once this returns it is on the disk. A status may be typed by its first letter.

    Raises `CellRefused`, or `RecordRefuses` for a paper or part that is not of the sitting.
    """
    typed = _fit_to_keep(cell)
    labels = [part.label for part in where.sitting.papers[0].parts]
    try:
        return type_cell(engine, where.sitting.code, typed, labels, assessor=assessor, role=role, at=at)
    except RecordRefuses:
        take(engine, where.sitting, where.text, at=at)  # unless another cell, sent at the same moment, had it taken in
    return type_cell(engine, where.sitting.code, typed, labels, assessor=assessor, role=role, at=at)


def beside_cell(
    engine: Engine, where: SittingFolder, key: CellKey, typed: str | None = None, role: Role = "first"
) -> BesideCell:
    """What stands beside a cell, and how it is read with `typed` in place of what stands there.

    Raises `RecordRefuses` for a paper or part that is not of the sitting.
    """
    code, attempt, label = key
    paper = paper_of(where.sitting, code)
    exercise = next((one for one in paper.exercises if any(part.label == label for part in one.parts)), None)
    if exercise is None:
        raise RecordRefuses(f"the paper {paper.code} has no part {harmless(label)}; look at the part's number")
    found = _beside(engine, where, paper, attempt, [exercise], role, {label: typed} if typed is not None else {})
    return next(one for one in found if one.label == label)


def beside_script(
    engine: Engine, where: SittingFolder, code: str, attempt: int, role: Role = "first"
) -> tuple[BesideCell, ...]:
    """The same for every cell of a script. Raises `RecordRefuses` for a paper that is not of the sitting."""
    paper = paper_of(where.sitting, code)
    return tuple(_beside(engine, where, paper, attempt, paper.exercises, role, {}))


def paper_of(sitting: Sitting, code: str) -> IssuedPaper:
    """The paper of that code. Raises `RecordRefuses` where the sitting has none."""
    paper = next((paper for paper in sitting.papers if paper.code == code), None)
    if paper is None:
        raise RecordRefuses(f"the sitting {sitting.code} has no paper {harmless(code)}; look at the paper's code")
    return paper


def _beside(
    engine: Engine,
    where: SittingFolder,
    paper: IssuedPaper,
    attempt: int,
    exercises: Sequence[IssuedExercise],
    role: Role,
    typed: Mapping[str, str],
) -> Iterator[BesideCell]:
    sitting, sources = sitting_in(where.text)
    scripts = _handed_in(engine, sitting, paper, attempt, role)
    stands = scripts[-1].cells if scripts else {}
    changed = {label: text for label, text in typed.items() if text != stands.get(label, "")}
    if changed:
        last = scripts.pop() if scripts else Script(code=paper.code, cells={})
        scripts.append(replace(last, cells={**last.cells, **changed}, unread={}))
    decisions = decisions_of(engine, sitting.code, role, paper.code).standing if stands else ()
    read = read_paper(sitting, paper, scripts, [one for one in decisions if one.label not in changed], sources)
    unsettled = [one for one in typed_otherwise(engine, sitting.code, role) if one.code == paper.code]
    marks = {mark.label: mark for mark in read.marked.marks} if read.marked else {}
    for issued in exercises:
        keyed = compose_exercise(paper.exercises.index(issued) + 1, issued, sources)
        earlier: list[Mark] = []
        answers = {answer.label: (asked, answer) for asked, own in keyed.by_part for answer in own}
        for entry in issued.parts:
            asked, answer = answers[entry.label]
            text = typed.get(entry.label, stands.get(entry.label, ""))
            yield BesideCell(
                code=paper.code,
                attempt=attempt,
                label=entry.label,
                name=paper.learner.name,
                exercise=keyed,
                asked=asked,
                item=next((row.say for row in asked.rows if row.label == entry.label), ""),
                how_to_write=MARKING_KINDS[entry.kind].cell,
                answer=answer,
                typed=text,
                read=read_cell(paper, entry.label, text, read, sources),
                earlier=tuple(earlier),
                marked=read.marked,
                otherwise=tuple(one for one in unsettled if one.key == (paper.code, attempt, entry.label)),
            )
            if entry.label in marks:
                earlier.append(marks[entry.label])


def _handed_in(engine: Engine, sitting: Sitting, paper: IssuedPaper, attempt: int, role: Role) -> list[Script]:
    """What a learner handed in, in order, up to an attempt; the attempt itself is there though nothing of it is in."""
    stands = on_screen(engine, sitting.code, role).scripts
    found = [script for (code, own), script in stands.items() if code == paper.code and own <= attempt]
    if attempt > 1 and (paper.code, attempt) not in stands:
        found.append(Script(code=paper.code, cells={}, status="resubmitted"))
    return found


def _fit_to_keep(cell: TypedCell) -> TypedCell:
    """The cell as it is kept. Raises `CellRefused`."""
    if cell.label == STATUS:
        status = read_status(cell.text)
        if status is None or (status == "resubmitted") != (cell.attempt > 1):
            raise CellRefused("write absent or late, or nothing for a paper handed in on the day")
        return replace(cell, text=status)
    if len(cell.text) > LONGEST_CELL:
        raise CellRefused(f"it has {len(cell.text)} characters; at most {LONGEST_CELL} are kept")
    if any(unseen(character) for character in cell.text):
        raise CellRefused("it holds characters that do not show")
    return cell


def _columns(sitting: Sitting) -> tuple[GridColumn, ...]:
    return tuple(
        GridColumn(label=part.label, unit=part.unit, of=part.marks, begins=part is exercise.parts[0])
        for exercise in sitting.papers[0].exercises
        for part in exercise.parts
    )


def _rows(number: int, paper: IssuedPaper, stands: OnScreen) -> Iterator[GridRow]:
    attempts = [attempt for code, attempt in stands.scripts if code == paper.code]
    for attempt in sorted({1, *attempts}):
        yield _row(number, paper, attempt, stands.scripts.get((paper.code, attempt)))


def _row(number: int, paper: IssuedPaper, attempt: int, script: Script | None) -> GridRow:
    cells = script.cells if script else {}
    return GridRow(
        code=paper.code,
        attempt=attempt,
        number=number,
        name=paper.learner.name,
        reference=paper.learner.reference,
        status=script.status if script else "",
        cells=tuple(cells.get(part.label, "") for part in paper.parts),
    )
