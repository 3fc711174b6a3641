"""The kinds of question a learner practises: exercises with variants of the practice share, composed as papers are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from courseware.banks import Bank, Exercise, SafetyNotes, Space, solve
from courseware.banks.drawing_kinds import kind_of
from courseware.banks.figures import Figure
from courseware.banks.part import Solved
from courseware.banks.shown_working import before_rounding
from courseware.banks.solve import scope_of
from courseware.papers.codes import keyed, keyed_shuffle
from courseware.papers.compose import Sources, compose_exercise
from courseware.papers.deal import Chosen, issue_exercise
from courseware.papers.invented import invented_site
from courseware.papers.shares import OF_A_MONTH
from courseware.papers.sheets import KeyExercise
from courseware.papers.sitting import IssuedExercise

MOST = OF_A_MONTH  # variants of a kind on a page of many; a page of few has more of each, up to `MOST_OF_FEW`
MOST_OF_FEW = 60
_IN_ALL = 1200  # questions on a page of few
_SITES = 6  # places, streets and clients of a kind
_PUBLIC = "practice"  # no secret: the page of the same banks is the same page


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One variant: how it would be issued, worked out exactly, and as finished text with its key."""

    issued: IssuedExercise
    solved: tuple[Solved, ...]
    key: KeyExercise
    before: Mapping[str, Figure]  # by part, what its working comes to before it is rounded to a whole number


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeKind:
    """An exercise to be practised, and its questions."""

    bank: Bank
    exercise: Exercise
    questions: tuple[Question, ...]


def practice_kinds(
    chosen: Sequence[Chosen], spaces: Sequence[Space], safety: SafetyNotes | None, most: int | None = None
) -> tuple[PracticeKind, ...]:
    """Each exercise with up to `most` variants of its space, `MOST` unless told.

    `spaces` are the practice shares of `chosen`, in order. An exercise without a variant is left out. The same
    exercises and spaces give the same questions.
    """
    sources = Sources(exercises={(bank.topic, e.name): (bank, e) for bank, e in chosen}, safety=safety)
    return tuple(
        PracticeKind(bank=bank, exercise=exercise, questions=_questions(bank, exercise, space, sources, most or MOST))
        for (bank, exercise), space in zip(chosen, spaces, strict=True)
        if len(space)
    )


def variants_of_each(kinds: int) -> int:
    """How many variants of each kind a page of so many kinds has at most: whoever practises few meets each oftener."""
    return max(MOST, min(MOST_OF_FEW, _IN_ALL // max(kinds, 1)))


def needs_paper(exercise: Exercise) -> bool:
    """Whether an exercise is worked in a drawing at true size, as paper has it and few screens."""
    return exercise.drawing is not None and kind_of(exercise.drawing).to_draw_in


def _questions(bank: Bank, exercise: Exercise, space: Space, sources: Sources, most: int) -> tuple[Question, ...]:
    dealt = keyed_shuffle(len(space), min(most, len(space)), _PUBLIC, bank.topic, exercise.name)
    sites = [invented_site(keyed(_PUBLIC, "site", exercise.name, str(number))) for number in range(_SITES)]
    return tuple(
        _question(bank, exercise, space.variant(index), sites[turn % _SITES], sources, str(turn))
        for turn, index in enumerate(dealt)
    )


def _question(
    bank: Bank,
    exercise: Exercise,
    given: Mapping[str, Figure | str],
    site: Mapping[str, str],
    sources: Sources,
    turn: str,
) -> Question:
    issued = issue_exercise(1, bank, exercise, given, site, _PUBLIC, turn)
    solved = solve(exercise, given)
    scope = scope_of(given, solved)
    before = {number.name: before_rounding(number, scope) for number in exercise.numbers}
    return Question(
        issued=issued,
        solved=solved,
        key=compose_exercise(1, issued, sources, numbered=False),
        before={name: figure for name, figure in before.items() if figure is not None},
    )
