"""What came of a sitting, to be looked at: the class picture, one learner, a starter for the whiteboard."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from courseware.class_report.bars_in_words import Bar, outcomes_in_words, slips_in_words, spread_in_words
from courseware.class_report.figures import ClassFigures, class_figures
from courseware.class_report.heat_table import HeatTable, heat_table
from courseware.class_report.misconceptions import Misconception, slip_words
from courseware.class_report.question_words import question_words
from courseware.class_report.report import outcomes_block, outcomes_shown, slips_block, spread_block, who_is_in
from courseware.class_report.starters import Starter, seen_in
from courseware.database.errors import RecordRefuses
from courseware.database.how_far import HowFar, how_far
from courseware.database.kept_marks import marks_of
from courseware.database.states import ScriptState, script_states
from courseware.feedback.marked_part import MarkedPart, marked_parts
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.mark import Marked
from courseware.marking.marks import MarkedPaper
from courseware.papers.compose import compose_key
from courseware.printing.workers import sitting_in
from courseware.reports.report import Block
from courseware.workflows.marking import marked_as_it_stands, marked_at
from courseware.workflows.marking_grid import paper_of
from courseware.workflows.starters import fresh_spaces, starter_questions, starters

if TYPE_CHECKING:
    from sqlalchemy import Engine

MOST_ROWS = 60  # of the heat map on a screen; a larger class comes in bands
_MOST_BARS, _MOST_OUTCOMES, _DOTS = 14, 30, 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipOnScreen:
    """Something that went wrong, and where it was seen; `number` from 0 asks for its starter."""

    number: int
    one: Misconception
    seen: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassOnScreen:
    """The class picture: the figures of `mark`, as they stand in the record now."""

    who: str
    figures: ClassFigures
    table: HeatTable | None  # none where nothing is marked yet
    slips: tuple[SlipOnScreen, ...]
    blocks: tuple[Block, ...]  # slips as bars, the spread, the outcomes
    bars: tuple[tuple[Bar, ...], ...]  # the same, block by block, for a narrow screen
    states: tuple[ScriptState, ...]
    behind: bool  # whether something was typed or decided since marks were kept last


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnerOnScreen:
    """One learner's paper part by part; no parts where it is absent or not in. No rank, no other learner."""

    code: str
    name: str
    reference: str
    marked: MarkedPaper | None
    parts: tuple[MarkedPart, ...]
    held: bool  # whether the row may be another's, so that its marks do not count
    state: ScriptState | None


def class_on_screen(engine: Engine, where: SittingFolder) -> ClassOnScreen:
    """The class picture of a sitting, worked out once for each state of the record."""
    return _class(engine, where.text, how_far(engine))


@lru_cache(maxsize=2)
def _class(engine: Engine, text: str, at: HowFar) -> ClassOnScreen:
    sitting, sources = sitting_in(text)
    marked = marked_at(engine, text, "first", at)
    figures = _figures(text, marked)
    found, questions = figures.codes, question_words(sitting, sources)
    return ClassOnScreen(
        who=who_is_in(sitting, figures),
        figures=figures,
        table=heat_table(figures, MOST_ROWS) if found else None,
        slips=tuple(
            SlipOnScreen(number=number, one=one, seen=seen_in(one, len(found)))
            for number, one in enumerate(figures.misconceptions)
        ),
        blocks=(
            slips_block(figures, _MOST_BARS),
            spread_block(figures, _DOTS),
            outcomes_block(figures, questions, _MOST_OUTCOMES),
        )
        if found
        else (),
        bars=(
            slips_in_words(figures.misconceptions[:_MOST_BARS]),
            spread_in_words(figures.totals, figures.of),
            outcomes_in_words(outcomes_shown(figures, _MOST_OUTCOMES), questions),
        )
        if found
        else (),
        states=_states(engine, sitting.code),
        behind=_kept(engine, sitting.code) != _shown(marked),
    )


def learner_on_screen(engine: Engine, where: SittingFolder, code: str) -> LearnerOnScreen:
    """One learner's paper as it stands. Raises `RecordRefuses` where the sitting has none of that code."""
    sitting, sources = sitting_in(where.text)
    paper = paper_of(sitting, code)
    marked = marked_as_it_stands(engine, where, "first")
    held = {one.code: one for one in marked.held}
    own = next((one for one in (*marked.papers, *held.values()) if one.code == code), None)
    place = sitting.papers.index(paper)
    parts = marked_parts(paper, compose_key(sitting, place, sources), own, sources) if own and own.marks else ()
    return LearnerOnScreen(
        code=code,
        name=paper.learner.name,
        reference=paper.learner.reference,
        marked=own,
        parts=parts,
        held=code in held,
        state=next((one for one in _states(engine, sitting.code) if one.code == code), None),
    )


def starter_on_screen(engine: Engine, where: SittingFolder, number: int) -> tuple[Misconception, Starter]:
    """What went wrong, by its number in the class picture, and a fresh question for it that nobody in the class had.

    Raises `NotFound` where there is none.
    """
    sitting, _ = sitting_in(where.text)
    figures = class_on_screen(engine, where).figures
    if not 0 <= number < len(figures.misconceptions):
        raise NotFound("this was not seen in the class: go back to the class picture")
    one = figures.misconceptions[number]
    exercises = {part.label: issued.exercise for issued in sitting.papers[0].exercises for part in issued.parts}
    for label in one.labels:
        if (starter := _starters(where.text, exercises[label]).get(label)) is not None:
            return one, starter
    raise NotFound("no fresh question can be made for this: every variant was issued; set it with sizes of your own")


@lru_cache(maxsize=64)
def _starters(text: str, exercise: str) -> dict[str, Starter]:
    """The starters of one exercise of a sitting, by label: proved once."""
    sitting, sources = sitting_in(text)
    names = [(one.topic, one.exercise) for one in sitting.papers[0].exercises if one.exercise == exercise]
    return starters(starter_questions(sitting, sources, fresh_spaces(sources, names, 1)))


def _figures(text: str, marked: Marked) -> ClassFigures:
    """By each paper's first attempt, as `hand_back` counts."""
    sitting, sources = sitting_in(text)
    there = {paper.code for paper in marked.papers}
    first = [paper for paper in marked.attempts if paper.code in there]
    return class_figures(sitting, first, slip_words(sitting, sources), marked.withdrawn)


def _states(engine: Engine, code: str) -> tuple[ScriptState, ...]:
    try:
        return script_states(engine, code)
    except RecordRefuses:
        return ()  # nothing of it is in the record yet


def _kept(engine: Engine, code: str) -> list[tuple[str, str, tuple[int, ...]]]:
    """The marks kept when it was marked last, without those of rows that were cleared."""
    try:
        return _marks(marks_of(engine, code, "first"))
    except RecordRefuses:
        return []


def _shown(marked: Marked) -> list[tuple[str, str, tuple[int, ...]]]:
    return _marks(marked.attempts)


def _marks(papers: tuple[MarkedPaper, ...]) -> list[tuple[str, str, tuple[int, ...]]]:
    return [(paper.code, paper.status, tuple(mark.marks for mark in paper.marks)) for paper in papers]
