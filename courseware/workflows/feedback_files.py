"""What comes of marking, written beside the papers: feedback sheets, the class picture, what is to be settled."""

from __future__ import annotations

from array import array
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.banks import Space
from courseware.class_report.figures import class_figures
from courseware.class_report.misconceptions import slip_words
from courseware.class_report.question_words import question_words
from courseware.class_report.report import class_picture
from courseware.class_report.variant_bands import bands_of
from courseware.class_report.workbook import class_workbook
from courseware.database.kept_marks import marks_of
from courseware.database.sittings import sittings, text_of
from courseware.database.states import Change, ScriptState, script_states
from courseware.database.who_marked import MarkedBy, who_marked
from courseware.feedback.feedback_text import VariantKey
from courseware.feedback.fresh_question import ExerciseName, variant_had
from courseware.feedback.settle_sheet import settle_page
from courseware.files.atomic import PRIVATE, write_whole
from courseware.files.sitting_files import ALL_FEEDBACK, PICTURE, SETTLE, feedback_file
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.mark import Marked
from courseware.marking.marks import Mark, MarkedSitting, NamedSlip
from courseware.papers.compose import Sources
from courseware.papers.dates import in_full
from courseware.papers.shares import ENOUGH
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.papers.sitting_file import read_sitting
from courseware.printing.class_picture_sheet import class_picture_pdf
from courseware.printing.feedback_sheets import Handback, print_feedback
from courseware.printing.workers import sitting_in
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.words import count, listed
from courseware.workflows.issuing import Tell
from courseware.workflows.joined_files import Joined, write_joined
from courseware.workflows.marking import marked_folder
from courseware.workflows.starters import fresh_spaces, starter_questions, starters

if TYPE_CHECKING:
    from sqlalchemy import Engine


def hand_back(
    engine: Engine,
    where: SittingFolder,
    marked: Marked,
    *,
    names: bool,
    processes: int,
    tell: Tell,
) -> Path:
    """Writes everything that comes of marking into the sitting's folder. Returns where.

    Call it while holding the output folder, from the entering of the scripts on: of two runs at once the later then has
    both assessors' work. The class picture goes by each paper's first attempt, the feedback by the last.
    """
    sitting, sources = sitting_in(where.text)
    spaces = _fresh_spaces(sources, sitting, marked, processes)
    who = {paper.code: paper.learner.name for paper in sitting.papers} if names else {}
    folder = marked_folder(where)
    others = tuple(_others(engine, sitting))
    states = {one.code: one for one in script_states(engine, sitting.code)}
    sheets = _sheets(sitting, marked, others, who_marked(engine, sitting.code, "first"), states)
    there = {paper.code for paper in marked.papers}
    first_attempts = [paper for paper in marked.attempts if paper.code in there]
    figures = class_figures(sitting, first_attempts, slip_words(sitting, sources), marked.withdrawn)
    shown = (sitting, figures, question_words(sitting, sources), starters(starter_questions(sitting, sources, spaces)))
    indices = {name: array("L", space.indices) for name, space in spaces.items()}
    codes = [sitting.papers[sheet.place].code for sheet in sheets]
    for sheet, pdf in print_feedback(where.text, indices, sheets, processes):
        write_whole(where.path / feedback_file(sitting.papers[sheet.place].code), pdf, PRIVATE)
        tell(1)
    made = [where.path / feedback_file(code) for code in codes]
    _tidy(folder, made)
    if made:
        write_joined([Joined(path=folder / ALL_FEEDBACK, sheets=tuple(made), mode=PRIVATE)], processes)
    write_whole(folder / f"{PICTURE}.pdf", class_picture_pdf(class_picture(*shown)), PRIVATE)
    bands = bands_of(sitting, first_attempts, others)
    write_whole(folder / f"{PICTURE}.xlsx", class_workbook(*shown, bands, who), PRIVATE)
    if marked.questions or to_look_at(marked):
        write_whole(folder / SETTLE, _to_settle(sitting, sources, marked), PRIVATE)
    return folder


def _tidy(folder: Path, made: Sequence[Path]) -> None:
    """Takes away what an earlier marking left and this one does not have."""
    for old in (*folder.glob("feedback-*.pdf"), folder / SETTLE, folder / ALL_FEEDBACK):
        if old not in made:
            old.unlink(missing_ok=True)


def _sheets(
    sitting: Sitting,
    marked: Marked,
    others: Sequence[MarkedSitting],
    by: Mapping[str, MarkedBy],
    states: Mapping[str, ScriptState],
) -> list[Handback]:
    """Who gets a sheet: every learner with a script, with what they had and slipped on before, and who marked it."""
    places = {paper.code: place for place, paper in enumerate(sitting.papers)}
    found: list[Handback] = []
    for paper in marked.papers:
        if paper.status != "absent":
            place = places[paper.code]
            had, earlier = _before(sitting.papers[place], others)
            told = _marked_by(by[paper.code]) if paper.code in by else ""
            state = states.get(paper.code)
            changed = tuple(map(_changed, state.changes)) if state else ()
            again = tuple(label for label in state.open if label not in paper.provisional) if state else ()
            found.append(
                Handback(
                    place=place, marked=paper, had=had, earlier=earlier, marked_by=told, changed=changed,
                    asked_again=again,
                )
            )  # fmt: skip
    return found


def _changed(change: Change) -> str:
    """`Changed since this was handed back: 1a has 2 of 2 marks now, 1 before (19 January 2026): method shown.`"""
    now = f"{change.label} has {change.after} of {count(change.of, 'mark')} now, {change.before} before"
    return f"Changed since this was handed back: {now} ({in_full(change.day)}): {change.reason}"


def _marked_by(by: MarkedBy) -> str:
    """`Marked by J. Marsh and A. Boateng, 12 January 2026.`"""
    who = f"by {listed(by.names)}," if by.names else "on"
    return f"Marked {who} {in_full(by.day.isoformat())}."


def _before(paper: IssuedPaper, others: Sequence[MarkedSitting]) -> tuple[frozenset[VariantKey], tuple[NamedSlip, ...]]:
    """The variants that this paper's learner had in other sittings, and the slips named there."""
    had: set[VariantKey] = set()
    slips: list[NamedSlip] = []
    for other, marked in others if paper.learner.known else ():
        for theirs in other.papers:
            if theirs.learner == paper.learner:
                had |= {variant_had(issued) for issued in theirs.exercises}
                slips += [s for one in marked if one.code == theirs.code for mark in one.marks for s in mark.slips]
    return frozenset(had), tuple(slips)


def _others(engine: Engine, sitting: Sitting) -> list[MarkedSitting]:
    """The record's other sittings that have an exercise of this one, with the marks of their papers as they stand."""
    exercises = {issued.exercise for issued in sitting.papers[0].exercises}
    found: list[MarkedSitting] = []
    for summary in sittings(engine):
        text = text_of(engine, summary.code) if summary.code != sitting.code and summary.scripts else ""
        if any(f'"{exercise}"' in text for exercise in exercises):
            newest = {paper.code: paper for paper in marks_of(engine, summary.code, "first")}
            found.append(MarkedSitting(read_sitting(text), tuple(newest.values())))
    return found


def _fresh_spaces(sources: Sources, sitting: Sitting, marked: Marked, processes: int) -> dict[ExerciseName, Space]:
    """What fresh questions are drawn from: the sitting's exercises; the others of its topics where one may be wanted.

    That is where a script is all right, or an exercise has so few variants that a learner may have had them all.
    """
    issued = dict.fromkeys((one.topic, one.exercise) for one in sitting.papers[0].exercises)
    spaces = fresh_spaces(sources, issued, processes)
    all_right = any(paper.marks and paper.total == paper.of for paper in marked.papers)
    if all_right or any(len(space) < ENOUGH for space in spaces.values()):
        topics = {topic for topic, _ in issued}
        others = [name for name in sources.exercises if name[0] in topics and name not in issued]
        spaces |= fresh_spaces(sources, others, processes)
    return spaces


def to_look_at(marked: Marked) -> list[tuple[str, Mark]]:
    """The marks that wait for the assessor's look at the working, by paper: all of them can be read."""
    return [
        (paper.code, mark)
        for paper in marked.papers
        for mark in paper.marks
        if mark.provisional and mark.how != "asked"
    ]


def _to_settle(sitting: Sitting, sources: Sources, marked: Marked) -> bytes:
    """The sheet to fill in, and whole rows that somebody must look at."""
    columns = {"row": 8, "code": 16, "part": 10, "written": 30, "what is unclear": 70}
    rows = [(one.line, one.code, one.label, one.written, one.why) for one in marked.questions]
    pages = (settle_page(sitting, sources, marked), Page(title="Rows of the sheet", columns=columns, rows=rows))
    return safe_workbook(pages, sitting.date)
