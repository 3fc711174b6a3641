"""Ten-minute starters: a fresh question of each exercise of a sitting, no variant that anybody in it had."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from courseware.banks import Space
from courseware.banks.solve import Given
from courseware.class_report.starters import Starter
from courseware.feedback.fresh_question import ExerciseName
from courseware.papers.codes import keyed
from courseware.papers.compose import Sources, compose_exercise
from courseware.papers.deal import issue_exercise
from courseware.papers.invented import invented_site
from courseware.papers.shares import for_papers, for_practice
from courseware.papers.sheets import KeyExercise
from courseware.papers.sitting import IssuedExercise, Sitting
from courseware.papers.unused_variants import given_texts
from courseware.workflows.proving import prove_all

_STARTER = "a starter for the class"


def fresh_spaces(sources: Sources, names: Iterable[ExerciseName], processes: int) -> dict[ExerciseName, Space]:
    """The proved variants of these exercises that are for practice, so that a retake has none of them.

    An exercise with no proved variant is not among them: it was issued before this program asked as much.
    """
    chosen = {name: sources.exercises[name] for name in names}
    proofs = prove_all(list(chosen.values()), processes, lambda _: None)
    spaces = {name: proof.space for name, proof in zip(chosen, proofs, strict=True) if len(proof.space)}
    return {name: own if len(own := for_practice(space)) else for_papers(space) for name, space in spaces.items()}


def starter_questions(
    sitting: Sitting, sources: Sources, spaces: Mapping[ExerciseName, Space]
) -> dict[str, tuple[IssuedExercise, KeyExercise]]:
    """A fresh question of each of the sitting's exercises by its name, numbered as on the papers.

    An exercise of which every variant was issued has none.
    """
    found: dict[str, tuple[IssuedExercise, KeyExercise]] = {}
    for number, issued in enumerate(sitting.papers[0].exercises, 1):
        bank, exercise = sources.exercises[issued.topic, issued.exercise]
        space = spaces.get((issued.topic, issued.exercise))
        given = _not_issued(sitting, space) if space is not None else None
        if given is not None:
            site = invented_site(keyed(sitting.seed, _STARTER, "site", issued.exercise))
            fresh = issue_exercise(number, bank, exercise, given, site, sitting.seed, _STARTER)
            found[issued.exercise] = fresh, compose_exercise(number, fresh, sources)
    return found


def starters(questions: Mapping[str, tuple[IssuedExercise, KeyExercise]]) -> dict[str, Starter]:
    """Each part of these questions with its answer, by its label."""
    found: dict[str, Starter] = {}
    for fresh, key in questions.values():
        pose = f"{key.asked.setting} {key.asked.pose}".strip()
        answers = [answer for own in key.answers for answer in own]
        asks = [(row.say if row else "", part) for part in key.asked.parts for row in (part.rows or (None,))]
        for entry, answer, (row, part) in zip(fresh.parts, answers, asks, strict=True):
            options = " ".join(f"{letter}: {say}." for letter, say in part.options)
            note = part.note and f"({part.note})"  # as on the paper
            ask = " ".join(filter(None, (part.ask, row, note, options)))
            found[entry.label] = Starter(pose, ask, answer.answer, key.asked.drawing)
    return found


def _not_issued(sitting: Sitting, space: Space) -> Given | None:
    """A variant drawn by the sitting's seed that is on none of its papers."""
    name, size = space.exercise.name, len(space)
    had = [issued.given for paper in sitting.papers for issued in paper.exercises if issued.exercise == name]
    first = keyed(sitting.seed, _STARTER, name) % size
    drawn = (space.variant((first + step) % size) for step in range(size))
    return next((given for given in drawn if given_texts(given) not in had), None)
