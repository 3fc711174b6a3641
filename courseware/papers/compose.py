"""From a sitting to finished sheets: a paper and a key for each learner, worked out again from the banks."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courseware.banks import Bank, Exercise, SafetyNotes, read_bank, read_safety_notes, solve
from courseware.banks.figures import exact_text, whole_as_int
from courseware.banks.part import Solved
from courseware.banks.solve import scope_of
from courseware.banks.wording import NUMBER
from courseware.papers.compose_drawing import drawing_call
from courseware.papers.compose_parts import brick_line
from courseware.papers.dates import in_full
from courseware.papers.part_kind import PAPER_KINDS, Entries, entries_by_part
from courseware.papers.sheets import (
    AskedExercise,
    Heading,
    Key,
    KeyExercise,
    Paper,
    SafetyNote,
)
from courseware.papers.sitting import IssuedExercise, IssuedPaper, Sitting
from courseware.papers.sitting_file import SittingFaulty
from courseware.settings.upright_joint import with_own_word
from courseware.trade import Format

CAUTIONS = (
    "Before any cutting, lifting, mixing or work at height, follow your centre's own risk assessment, local codes and "
    "the makers' instructions; some work is for trained or licensed people only.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sources:
    """A sitting's banks and safety notes, read once."""

    exercises: Mapping[tuple[str, str], tuple[Bank, Exercise]]
    safety: SafetyNotes | None


def read_sources(sitting: Sitting) -> Sources:
    """The banks kept in a sitting. Raises `SittingFaulty` where their text is not what was issued."""
    exercises: dict[tuple[str, str], tuple[Bank, Exercise]] = {}
    for source in (*sitting.banks, *([sitting.safety] if sitting.safety else [])):
        if hashlib.sha256(source.text.encode()).hexdigest() != source.sha256:
            raise SittingFaulty(f"the text of {source.file} in it is not the text that was issued")
    for source in sitting.banks:
        bank = read_bank(source.text.encode(), source.file, sitting.settings)
        exercises |= {(bank.topic, exercise.name): (bank, exercise) for exercise in bank.exercises}
    safety = read_safety_notes(sitting.safety.text.encode(), sitting.safety.file) if sitting.safety else None
    return Sources(exercises=exercises, safety=safety)


def compose_paper(sitting: Sitting, place: int, sources: Sources) -> Paper:
    """The paper of learner `place`, from 0: nothing on it comes from an answer."""
    asked = _asked(sitting, sitting.papers[place], sources)
    return Paper(
        heading=_heading(sitting, place),
        exercises=tuple(a for a, _, _ in asked),
        cautions=CAUTIONS,
        signed=sitting.settings.signatures.papers,
        set_as=sitting.papers[place].learner.sheets,
    )


def compose_key(sitting: Sitting, place: int, sources: Sources) -> Key:
    """The key to the paper of learner `place`. Raises `SittingFaulty` where an answer is not the one in it."""
    paper = sitting.papers[place]
    asked = _asked(sitting, paper, sources)
    exercises = [
        _keyed(question, exercise, solved, issued, _site(issued, question.number))
        for (question, exercise, solved), issued in zip(asked, paper.exercises, strict=True)
    ]
    return Key(heading=_heading(sitting, place), exercises=tuple(exercises), cautions=CAUTIONS, scale=_scale(asked))


def _asked(
    sitting: Sitting, paper: IssuedPaper, sources: Sources
) -> list[tuple[AskedExercise, Exercise, tuple[Solved, ...]]]:
    from_banks = [issued_from(issued, sources) for issued in paper.exercises]
    needed = [tuple(dict.fromkeys((*bank.safety, *exercise.safety))) for bank, exercise in from_banks]
    first = next((place for place, names in enumerate(needed) if names), None)  # all notes of the paper stand there
    gathered = _notes(dict.fromkeys(name for names in needed for name in names), sources.safety)
    found: list[tuple[AskedExercise, Exercise, tuple[Solved, ...]]] = []
    for place, (issued, (bank, exercise)) in enumerate(zip(paper.exercises, from_banks, strict=True)):
        number = place + 1
        notes = gathered if place == first else ()
        asked, solved = _ask(number, bank, exercise, issued, notes, _site(issued, number))
        found.append((asked, exercise, solved))
    return found


def issued_from(issued: IssuedExercise, sources: Sources) -> tuple[Bank, Exercise]:
    """The bank and exercise that an issued one came from. Raises `SittingFaulty` where there is none."""
    try:
        return sources.exercises[issued.topic, issued.exercise]
    except KeyError:
        raise SittingFaulty(f"no exercise `{issued.exercise}` stands in the banks it holds") from None


def compose_exercise(number: int, issued: IssuedExercise, sources: Sources, *, numbered: bool = True) -> KeyExercise:
    """One issued exercise with its key, apart from any paper; its `asked` is what a learner may see.

    Its words call a part `1a`, or `part a` where its number is not shown (`numbered`).
    """
    bank, exercise = issued_from(issued, sources)
    notes = _notes(dict.fromkeys((*bank.safety, *exercise.safety)), sources.safety)
    site = _site(issued, number) if numbered else issued.site
    asked, solved = _ask(number, bank, exercise, issued, notes, site)
    return _keyed(asked, exercise, solved, issued, site)


def _ask(
    number: int,
    bank: Bank,
    exercise: Exercise,
    issued: IssuedExercise,
    notes: tuple[SafetyNote, ...],
    site: Mapping[str, str],
) -> tuple[AskedExercise, tuple[Solved, ...]]:
    given = given_of(exercise, issued)
    solved = solve(exercise, given)
    scope = scope_of(given, solved)
    brick = with_own_word(brick_line(exercise.format, exercise.brick_line), bank.settings.upright_joint)
    asked = AskedExercise(
        number=number,
        topic=bank.topic,
        level=exercise.level,
        setting=issued.setting,
        pose=exercise.pose.render(scope, site),
        brick=brick,
        format=exercise.format if brick else None,
        parts=tuple(
            PAPER_KINDS[part.part.kind].asked(part, own, scope, site)
            for part, own in zip(solved, entries_of(exercise, issued, number), strict=True)
        ),
        marks=exercise.marks,
        drawing=drawing_call(exercise, scope, filled=False),
        safety=notes,
    )
    return asked, solved


def _keyed(
    asked: AskedExercise,
    exercise: Exercise,
    solved: tuple[Solved, ...],
    issued: IssuedExercise,
    site: Mapping[str, str],
) -> KeyExercise:
    scope = scope_of(given_of(exercise, issued), solved)
    answers = tuple(
        PAPER_KINDS[part.part.kind].key(part, own, scope, site)
        for part, own in zip(solved, entries_of(exercise, issued, asked.number), strict=True)
    )
    return KeyExercise(asked=asked, answers=answers, drawing=drawing_call(exercise, scope, filled=True))


def _site(issued: IssuedExercise, number: int) -> dict[str, str]:
    """The site words of an exercise, and its number for the labels of its parts."""
    return {**issued.site, NUMBER: str(number)}


def entries_of(exercise: Exercise, issued: IssuedExercise, number: int | None = None) -> tuple[Entries, ...]:
    """The sitting's entries of each part, labelled by `number` where it is known.

    Raises `SittingFaulty` where they are not those of the exercise's parts.
    """
    entries = entries_by_part(exercise, issued, number)
    if entries is None:
        named = exercise.name if number is None else f"exercise {number}"
        raise SittingFaulty(f"{named} does not have the parts it was issued with")
    return entries


def given_of(exercise: Exercise, issued: IssuedExercise) -> dict[str, int | Fraction | str]:
    """The variant that was issued. Raises `SittingFaulty` where it is none of the bank's."""
    found: dict[str, int | Fraction | str] = {}
    for given in exercise.givens:
        text = issued.given.get(given.name, "")
        value = text if text in given.values else _figure(text)
        if value is None or value not in given.values:
            raise SittingFaulty(f"{exercise.name}: {given.name} = {text[:40]!r} is not a value of its bank")
        found[given.name] = value
    return found


@lru_cache(maxsize=10_000)
def _figure(text: str) -> int | Fraction | None:
    """The figure that a sitting's exact text stands for; None for any other text."""
    try:
        value = whole_as_int(Fraction(text))
    except (ValueError, ZeroDivisionError):
        return None
    return value if exact_text(value) == text else None


def _heading(sitting: Sitting, place: int) -> Heading:
    issued = sitting.papers[place]
    return Heading(
        title=sitting.title,
        group=sitting.group,
        date=in_full(sitting.date),
        code=issued.code,
        learner=issued.learner.name,
        reference=issued.learner.reference,
        number="" if issued.learner.name else f"Paper {place + 1} of {len(sitting.papers)}",
        marks=sum(part.marks for part in issued.parts),
        centre=sitting.settings.name,
        due=in_full(sitting.due),
    )


def _scale(asked: list[tuple[AskedExercise, Exercise, tuple[Solved, ...]]]) -> Format | None:
    """The brick whose courses the margin shows: the exercises' own where they agree, else none."""
    formats = {exercise.format for _, exercise, _ in asked}
    return formats.pop() if len(formats) == 1 else None


def _notes(names: Mapping[str, None], safety: SafetyNotes | None) -> tuple[SafetyNote, ...]:
    known = safety.notes if safety else {}
    return tuple(
        SafetyNote(title=known[name][0], lines=known[name][1], source=known[name][2]) for name in names if name in known
    )
