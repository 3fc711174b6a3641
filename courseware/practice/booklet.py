"""The printed practice booklet as finished text: examples and questions first, every answer at the back."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from courseware.banks import SafetyNotes, Space
from courseware.banks.solve import Given
from courseware.papers.codes import keyed, keyed_shuffle, shuffled
from courseware.papers.compose import CAUTIONS, Sources, compose_exercise
from courseware.papers.deal import Chosen, issue_exercise
from courseware.papers.invented import invented_site
from courseware.papers.sheets import AskedExercise, KeyExercise, SafetyNote
from courseware.papers.unused_variants import CannotDeal
from courseware.trade import Format
from courseware.words import listed

TIMES = 3  # right answers that make an exercise secure, so as many questions of each
_EXERCISES = 3  # of a booklet at least, where its topics have them: fewer leave nothing to change between
_MARK = re.compile(r" \[\d+\]$")
_HOW = (
    "Worked examples: cover the working with a sheet of paper. Move it down a line at a time, and say what comes next "
    "before you look.",
    "Then do the question below the example without help. Write the rule, put the numbers in, give the answer with its "
    "unit. Check it another way.",
    "Only when you have written an answer, turn to the back. Is yours wrong? Look for your figure beside “If you got”: "
    "it says what went wrong. Try once more, then read the working.",
    "Do the first mixed round on another day, and the second about a week later. Say which rule a question needs "
    "before you work it out.",
    "A question that went wrong comes back: do it again after 1 day, then after 3, 7, 14 and 28 days.",
)
_SECURE = (
    "Tick a box when you had that question right without help, and write the day beside it. Three ticks on two days or "
    "more: you are secure in it, and tick the last box. If not, ask for a fresh booklet: its figures are different."
)
_ROUNDS = (
    ("Mixed questions, first round", "For another day. The topics change: say which rule each question needs first."),
    ("Mixed questions, second round", "For about a week later. No looking back at the examples."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ExamplePair:
    """The start of an exercise: one question with its working shown, and one to do."""

    example: KeyExercise
    question: AskedExercise


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """Questions for another day, of one exercise after another."""

    heading: str
    advice: str
    questions: tuple[AskedExercise, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SecureRow:
    """A row of the page that the learner ticks: the exercise, and the questions of it by number."""

    topic: str
    exercise: str  # its name in plain words, as `opening for a panel`
    questions: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Booklet:
    """A practice booklet. Only the examples and `answers`, which stand at the back, hold any answer."""

    centre: str  # '' prints none
    title: str
    topics: str
    how: tuple[str, ...]
    cautions: tuple[str, ...]
    secure: str
    rows: tuple[SecureRow, ...]
    blocks: tuple[ExamplePair, ...]
    rounds: tuple[Round, ...]
    answers: tuple[KeyExercise, ...]
    scale: Format | None  # the brick whose courses the gauge scale in the margin shows

    @property
    def questions(self) -> tuple[AskedExercise, ...]:
        """Every question that is to be done, in the order of the pages."""
        return (*(block.question for block in self.blocks), *(q for each in self.rounds for q in each.questions))


def compose_booklet(
    candidates: Sequence[Chosen], spaces: Sequence[Space], safety: SafetyNotes | None, seed: str
) -> Booklet:
    """A booklet from these exercises. `spaces` has the variants that each may take, all proved, in the same order.

    Of each topic one exercise is taken, more where there are few topics. Of each exercise a variant is shown worked
    and `TIMES` are asked, none of them twice. Raises `CannotDeal` where no exercise has as many.
    """
    taken = _taken(candidates, spaces, seed)
    chosen = [candidates[place] for place in taken]
    sources = Sources(exercises={(bank.topic, e.name): (bank, e) for bank, e in chosen}, safety=safety)
    variants = [_dealt(candidates[place], spaces[place], seed) for place in taken]

    def made(place: int, turn: int, number: int) -> KeyExercise:
        bank, exercise = chosen[place]
        site = invented_site(keyed(seed, "booklet site", exercise.name, str(turn)))
        issued = issue_exercise(number, bank, exercise, variants[place][turn], site, seed, f"booklet {turn}")
        return unmarked(compose_exercise(number, issued, sources))

    turns = list(_turns(chosen, seed))
    asked = [[made(place, turn, number) for place, number in order] for turn, order in enumerate(turns, 1)]
    examples = [_unnumbered(made(place, 0, 1)) for place in range(len(chosen))]
    started, *mixed = asked
    examples, started = _told_once(examples, started)
    rounds = [_told_once(each)[0] for each in mixed]
    formats = {exercise.format for _, exercise in chosen}
    return Booklet(
        centre=chosen[0][0].settings.name,
        title="Practice booklet",
        topics=listed(list(dict.fromkeys(bank.topic for bank, _ in chosen))),
        how=_HOW,
        cautions=CAUTIONS,
        secure=_SECURE,
        rows=_rows(chosen, turns),
        blocks=tuple(ExamplePair(example=e, question=q.asked) for e, q in zip(examples, started, strict=True)),
        rounds=tuple(
            Round(heading=heading, advice=advice, questions=tuple(each.asked for each in questions))
            for (heading, advice), questions in zip(_ROUNDS, rounds, strict=True)
        ),
        answers=tuple(question for each in (started, *rounds) for question in each),
        scale=formats.pop() if len(formats) == 1 else None,
    )


def _taken(candidates: Sequence[Chosen], spaces: Sequence[Space], seed: str) -> list[int]:
    """The exercises of a booklet by their place, topic by topic: the easiest of each, those with nothing to draw first.

    Nobody is there to mark a drawing, so an exercise with one is taken where there is no other.
    """
    by_topic: dict[str, list[int]] = {}
    for place, ((bank, _), space) in enumerate(zip(candidates, spaces, strict=True)):
        if len(space) > TIMES:
            by_topic.setdefault(bank.topic, []).append(place)
    if not by_topic:
        raise CannotDeal("none of these exercises has enough variants to practise with; choose others")
    each = max(1, _EXERCISES // len(by_topic))
    return [place for places in by_topic.values() for place in _easiest(candidates, places, seed)[:each]]


def _easiest(candidates: Sequence[Chosen], places: Sequence[int], seed: str) -> list[int]:
    level = min(candidates[place][1].level for place in places)
    fitting = [place for place in places if candidates[place][1].level == level]
    drawn = shuffled(fitting, seed, "booklet", candidates[places[0]][0].sha256)
    return sorted(drawn, key=lambda place: any(part.by_eye for part in candidates[place][1].parts))


def _dealt(chosen: Chosen, space: Space, seed: str) -> list[Given]:
    bank, exercise = chosen
    places = keyed_shuffle(len(space), TIMES + 1, seed, "booklet", bank.sha256, exercise.name)
    return [space.variant(place) for place in places]


def _turns(chosen: Sequence[Chosen], seed: str) -> Iterator[tuple[tuple[int, int], ...]]:
    """For each time round, the exercises by their place, with the question's number: first as chosen, then mixed."""
    order = list(range(len(chosen)))
    number = 1
    for turn in range(TIMES):
        if turn:
            order = _mixed(chosen, order[-1], seed, str(turn))
        yield tuple((place, number + step) for step, place in enumerate(order))
        number += len(order)


def _mixed(chosen: Sequence[Chosen], last: int, seed: str, turn: str) -> list[int]:
    """The exercises with their topics in turn, not beginning with the one that came last."""
    by_topic: dict[str, list[int]] = {}
    for place in shuffled(range(len(chosen)), seed, "booklet round", turn):
        by_topic.setdefault(chosen[place][0].topic, []).append(place)
    order = [place for turns in zip_longest(*by_topic.values()) for place in turns if place is not None]
    return order[1:] + order[:1] if order[0] == last else order


def _told_once(*lists: list[KeyExercise]) -> list[list[KeyExercise]]:
    """The same exercises, side by side in their lists, with each safety note where it comes first alone."""
    told: set[SafetyNote] = set()
    found: list[list[KeyExercise]] = [[] for _ in lists]
    for beside in zip(*lists, strict=True):
        for exercise, into in zip(beside, found, strict=True):
            notes = tuple(note for note in exercise.asked.safety if note not in told)
            told |= set(notes)
            into.append(replace(exercise, asked=replace(exercise.asked, safety=notes)))
    return found


def unmarked(exercise: KeyExercise) -> KeyExercise:
    """The points of a drawing without the mark that each earns: nobody marks a booklet."""
    answers = tuple(
        tuple(replace(a, notes=tuple(_MARK.sub("", note) for note in a.notes)) if a.by_eye else a for a in part)
        for part in exercise.answers
    )
    return replace(exercise, answers=answers)


def _unnumbered(example: KeyExercise) -> KeyExercise:
    """An example's parts as `a`, `b(ii)`: it is not a question, and has no number."""
    parts = tuple(
        replace(
            part, label=_letter(part.label), rows=tuple(replace(row, label=_letter(row.label)) for row in part.rows)
        )
        for part in example.asked.parts
    )
    answers = tuple(tuple(replace(a, label=_letter(a.label)) for a in part) for part in example.answers)
    return replace(example, asked=replace(example.asked, parts=parts), answers=answers)


def _letter(label: str) -> str:
    return label.lstrip("0123456789")


def _rows(chosen: Sequence[Chosen], turns: Sequence[Sequence[tuple[int, int]]]) -> tuple[SecureRow, ...]:
    numbers: Mapping[int, list[int]] = {place: [] for place in range(len(chosen))}
    for place, number in (each for turn in turns for each in turn):
        numbers[place].append(number)
    return tuple(
        SecureRow(topic=bank.topic, exercise=exercise.name.replace("-", " "), questions=tuple(numbers[place]))
        for place, (bank, exercise) in enumerate(chosen)
    )
