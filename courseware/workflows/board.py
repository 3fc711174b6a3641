"""Pages for the whiteboard made: of exercises from banks, or of what a marked sitting is to be taught again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.class_report.figures import ClassFigures, class_figures
from courseware.class_report.misconceptions import Misconception, slip_words
from courseware.database.kept_marks import marks_of
from courseware.database.sittings import sittings
from courseware.files.atomic import write_whole
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.codes import keyed
from courseware.papers.compose import Sources, compose_exercise
from courseware.papers.deal import issue_exercise
from courseware.papers.invented import invented_site
from courseware.papers.sheets import KeyExercise
from courseware.papers.sitting import IssuedExercise, Sitting
from courseware.papers.unused_variants import CannotDeal
from courseware.practice.board import Board, Lesson, SlipOfClass, compose_board
from courseware.practice.kinds import needs_paper
from courseware.printing.render import board_pdf
from courseware.printing.workers import sitting_in
from courseware.settings.settings import Settings
from courseware.words import count
from courseware.workflows.practise import to_practise
from courseware.workflows.starters import fresh_spaces, starter_questions
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import Engine

_DRAWN = "the whiteboard"
_ON_PAPER = "is drawn at true size, so only paper has it."
_TITLE = "Whiteboard: {}"
Question = tuple[IssuedExercise, KeyExercise]


def board_of_banks(
    named: Sequence[str], picked: tuple[str, ...], seed: str, settings: Settings, processes: int, watch: Watch
) -> Board:
    """The exercises of these banks, those `picked` or all, each with a variant of its share for practice.

    The same banks and seed give the same pages. Raises `CannotDeal` and `ProofsFailed`.
    """
    found = to_practise(named, None, None, settings, processes, watch, picked)
    sources = Sources(exercises={(bank.topic, e.name): (bank, e) for bank, e in found.chosen}, safety=found.notes)
    lessons: list[Lesson] = []
    for (bank, exercise), space in zip(found.chosen, found.spaces, strict=True):
        if needs_paper(exercise):
            watch.note(f"{exercise.name} {_ON_PAPER}")
        elif len(space):
            given = space.variant(keyed(seed, _DRAWN, bank.sha256, exercise.name) % len(space))
            site = invented_site(keyed(seed, _DRAWN, "site", exercise.name))
            number = len(lessons) + 1
            issued = issue_exercise(number, bank, exercise, given, site, seed, _DRAWN)
            key = compose_exercise(number, issued, sources)
            every = tuple(range(len(key.answers)))
            lessons.append(Lesson(key=key, exercise=exercise.name, parts=every, seen={}))
    if not lessons:
        raise CannotDeal("these exercises are for paper: none of them is for the whiteboard")
    about = f"{count(len(lessons), 'question')} with the working, a line at a time."
    return compose_board(_TITLE.format(found.title), about, lessons)


def board_of_sitting(engine: Engine, where: SittingFolder, processes: int, watch: Watch) -> Board:
    """What a sitting's class picture says is to be taught first, each exercise by its own starter.

    Raises `CannotDeal` where nothing is marked yet or nothing is to be taught again.
    """
    sitting, sources = sitting_in(where.text)
    in_record = any(one.code == sitting.code for one in sittings(engine))
    standing = marks_of(engine, sitting.code, "first") if in_record else ()
    marked = [one for one in standing if one.status or any(mark.how != "blank" for mark in one.marks)]
    figures = class_figures(sitting, marked, slip_words(sitting, sources))
    if not figures.codes:
        raise CannotDeal(f"no paper of {sitting.title} is marked yet; mark it first")
    again = [one for one in figures.misconceptions if one.again]
    if not again:
        raise CannotDeal("no slip was seen on more than one paper, so there is nothing to teach the class again")
    questions = _questions(sitting, sources, {label for one in again for label in one.labels}, processes, watch)
    lessons = _lessons(questions, again, figures)
    if not lessons:
        raise CannotDeal("none of the exercises to be taught again has a variant that nobody in the class had")
    about = f"What went wrong on more than one of {count(len(figures.codes), 'paper')}, the commonest first."
    return compose_board(_TITLE.format(sitting.title), about, lessons)


def write_board(file: Path, board: Board) -> int:
    """Writes the pages as one PDF. Returns how many there are."""
    pdf = board_pdf(board)
    file.parent.mkdir(parents=True, exist_ok=True)
    write_whole(file, pdf)
    return len(board.screens)


def _questions(
    sitting: Sitting, sources: Sources, labels: Set[str], processes: int, watch: Watch
) -> dict[str, Question]:
    """The starters of the exercises that have these parts, by their labels; those that cannot be shown are told."""
    wanted = [one for one in sitting.papers[0].exercises if any(part.label in labels for part in one.parts)]
    names = [(one.topic, one.exercise) for one in wanted]
    fresh = starter_questions(sitting, sources, fresh_spaces(sources, names, processes))
    found: dict[str, Question] = {}
    for topic, name in names:
        if needs_paper(sources.exercises[topic, name][1]):
            watch.note(f"{name} {_ON_PAPER}")
        elif name not in fresh:
            watch.note(f"{name} has no variant that nobody in the class had: set it again with sizes of your own.")
        else:
            found |= {part.label: fresh[name] for part in fresh[name][0].parts}
    return found


def _lessons(questions: Mapping[str, Question], again: Sequence[Misconception], figures: ClassFigures) -> list[Lesson]:
    """A lesson for each exercise, that of the commonest mistake first; each mistake in the part that shows it most."""
    shown: dict[str, dict[str, list[SlipOfClass]]] = {}
    for one in again:
        label = next((label for label in one.labels if label in questions), None)
        if label is not None:
            own = shown.setdefault(questions[label][0].exercise, {}).setdefault(label, [])
            own.append(SlipOfClass(number=_number(one, label, figures), says=one.says, papers=_papers(one, figures)))
    return [_lesson(*questions[next(iter(seen))], seen) for seen in shown.values()]


def _lesson(issued: IssuedExercise, key: KeyExercise, seen: Mapping[str, Sequence[SlipOfClass]]) -> Lesson:
    parts = [place for place, answers in enumerate(key.answers) if any(answer.label in seen for answer in answers)]
    told = {label: tuple(own) for label, own in seen.items()}
    return Lesson(key=key, exercise=issued.exercise, parts=tuple(parts), seen=told)


def _number(one: Misconception, label: str, figures: ClassFigures) -> int | None:
    """The place of its slip among those of a part, from 1; None where it has none there, as a choice has."""
    own = (slip for slip in figures.slips if slip.label == label)
    keys = [slip.key for slip in own if (slip.words or slip.says.rstrip(".")).casefold() == one.words.casefold()]
    last = keys[0].rpartition("/")[2] if keys else ""
    return int(last) if last.isdecimal() else None


def _papers(one: Misconception, figures: ClassFigures) -> str:
    of = count(len(figures.codes), "paper")
    if one.learners:
        return f"seen on {one.learners} of {of}"
    return f"perhaps on {len({code for code, _ in one.perhaps})} of {of}"
