"""A sitting's folder as a tutor meets it: what each file is for, how many sides it takes, each learner's own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.errors import RecordRefuses
from courseware.database.kept_marks import not_in
from courseware.files.sitting_files import (
    ALL_FEEDBACK,
    ALL_KEYS,
    ALL_PAPERS,
    APPROVED,
    GRID,
    MARKED,
    PICTURE,
    SETTLE,
    SHEET,
    TUTOR,
    feedback_file,
    key_file,
    paper_file,
    word_file,
)
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.sheet_format import format_words
from courseware.printing.page_census import PdfDamaged, sides_of
from courseware.words import count
from courseware.workflows.retaking import worksheet_on_a_job

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class FileAtHand:
    """A file that is there: what it is called and what it is for; the sides of a PDF, none of another."""

    path: Path
    title: str
    use: str
    sides: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnerAtHand:
    """A learner of the sitting: paper's code, format in words, own files that are there, sides of the paper."""

    code: str
    name: str
    reference: str
    sheets: str
    paper: Path | None
    key: Path | None
    word: Path | None
    feedback: Path | None
    sides: int | None

    @property
    def called(self) -> str:
        """The name, or the code of a paper without one."""
        return self.name or self.code


@dataclass(frozen=True, slots=True, kw_only=True)
class SittingAtHand:
    """A sitting's files by whom they are for, and its learners. `next_step` says what is to be done now."""

    where: SittingFolder
    for_learners: tuple[FileAtHand, ...]
    for_tutor: tuple[FileAtHand, ...]
    of_marking: tuple[FileAtHand, ...]
    learners: tuple[LearnerAtHand, ...]
    named: bool  # whether learners have names, so that others can join
    on_a_job: bool

    @property
    def marked(self) -> bool:
        """Whether marking has left anything."""
        return bool(self.of_marking)

    @property
    def lost(self) -> int:
        """How many papers or keys are no longer there."""
        return sum((one.paper is None) + (one.key is None) for one in self.learners)


def sitting_at_hand(where: SittingFolder) -> SittingAtHand:
    """What there is of a sitting."""
    sitting = where.sitting
    return SittingAtHand(
        where=where,
        for_learners=tuple(_there(where.path, _FOR_LEARNERS)),
        for_tutor=tuple(_there(where.path, _FOR_TUTOR)),
        of_marking=tuple(_there(where.path, _OF_MARKING)),
        learners=tuple(_learners(where)),
        named=all(paper.learner.name for paper in sitting.papers),
        on_a_job=worksheet_on_a_job(sitting),
    )


def next_step(where: SittingFolder, engine: Engine | None = None) -> str:
    """What is to be done next with a sitting, in a few words; with the record, which papers are not marked yet too."""
    codes = [paper.code for paper in where.sitting.papers]
    if lost := sum(not (where.path / paper_file(code)).is_file() for code in codes):
        return f"{count(lost, 'paper')} no longer in the folder: make them again."
    if not (where.path / MARKED).is_dir():
        return "Print the papers; after the session type in the answers."
    if left := _not_in(engine, where.sitting.code):
        return f"Marked but for {count(left, 'paper')}: type them in, or write absent, then mark again."
    if (where.path / MARKED / SETTLE).is_file():
        return "Marked: look at what is still open, then give feedback."
    return "Marked: give feedback, look at the class picture."


def _not_in(engine: Engine | None, code: str) -> int:
    try:
        return len(not_in(engine, code)) if engine is not None else 0
    except RecordRefuses:  # it does not have the sitting
        return 0


_FOR_LEARNERS = (
    (ALL_PAPERS, "All papers", "Print this for the class: every paper, each begun on a sheet of its own."),
)  # fmt: skip
_FOR_TUTOR = (
    (ALL_KEYS, "All keys", "Answers, working and slips for every paper. For you alone."),
    (
        f"{TUTOR}/{APPROVED}",
        "Assurer's sheet",
        "What was looked through before printing, and by whom.",
    ),
    (GRID, "Class grid", "Learners down, questions across: every right answer on one sheet, to mark beside."),
    (
        f"{TUTOR}/{SHEET}",
        "Marking sheet",
        "A workbook to type answers into, where you would rather not type them here.",
    ),
)
_OF_MARKING = (
    (f"{MARKED}/{ALL_FEEDBACK}", "All feedback", "A sheet for each learner: what went right, which slip, what next."),
    (f"{MARKED}/{PICTURE}.pdf", "Class picture", "What to teach again first, on two sides. Without names."),
    (f"{MARKED}/{PICTURE}.xlsx", "Class picture, all figures", "The same and more, as a workbook."),
    (f"{MARKED}/{SETTLE}", "To be looked at", "Answers that wait for a person to decide."),
)


def _there(folder: Path, files: tuple[tuple[str, str, str], ...]) -> Iterator[FileAtHand]:
    for name, title, use in files:
        if (path := folder / name).is_file():
            yield FileAtHand(path=path, title=title, use=use, sides=_sides(path))


def _learners(where: SittingFolder) -> Iterator[LearnerAtHand]:
    for paper in where.sitting.papers:
        names = (paper_file(paper.code), key_file(paper.code), word_file(paper_file(paper.code)))
        files = [path if (path := where.path / name).is_file() else None for name in names]
        feedback = where.path / feedback_file(paper.code)
        yield LearnerAtHand(
            code=paper.code,
            name=paper.learner.name,
            reference=paper.learner.reference,
            sheets=format_words(paper.learner.sheets),
            paper=files[0],
            key=files[1],
            word=files[2],
            feedback=feedback if feedback.is_file() else None,
            sides=_sides(files[0]) if files[0] else None,
        )


def _sides(path: Path) -> int | None:
    try:
        return sides_of(path) if path.suffix == ".pdf" else None
    except (OSError, PdfDamaged):
        return None
