"""Dealing a sitting: exercises chosen, variants dealt so that no two learners share one while the space lasts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from courseware.banks import Bank, Exercise, SafetyNotes, Space, solve
from courseware.banks.solve import Given, scope_of
from courseware.papers.codes import code, keyed, shuffled
from courseware.papers.group import Group
from courseware.papers.invented import invented_site
from courseware.papers.part_kind import PAPER_KINDS, labels
from courseware.papers.sitting import IssuedExercise, IssuedPaper, IssuedPart, Sitting, SourceFile
from courseware.papers.unused_variants import CannotDeal, VariantsHad, given_texts, unused_variants


@dataclass(frozen=True, slots=True, kw_only=True)
class Choosing:
    """Which exercises a sitting takes: a level, a number, or names; None where it does not matter."""

    level: int | None = None
    exercises: int | None = None
    picked: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Heads:
    """What the tutor gave a sitting."""

    title: str
    date: str
    group: Group
    seed: str
    version: str
    retake_of: str = ""
    due: str = ""
    approved_by: str = ""


Chosen = tuple[Bank, Exercise]


def choose(banks: Sequence[Bank], choosing: Choosing, seed: str) -> tuple[Chosen, ...]:
    """The exercises of a sitting, rising in level; of one level by the order of the banks. Raises `CannotDeal`."""
    if choosing.picked:
        return _picked(banks, choosing.picked)
    by_topic = [
        shuffled([(bank, e) for e in bank.exercises if choosing.level in (None, e.level)], seed, "choose", bank.sha256)
        for bank in banks
    ]
    if not any(by_topic):
        raise CannotDeal(
            f"no exercise of level {choosing.level} stands in these banks; leave --level out or choose another"
        )
    in_turn = _in_turn(by_topic)
    wanted = choosing.exercises or max(6, len(banks))
    if choosing.exercises and choosing.exercises > len(in_turn):
        raise CannotDeal(f"{choosing.exercises} exercises were asked for; these banks hold {len(in_turn)}")
    taken = in_turn[:wanted]
    place = {bank.sha256: index for index, bank in enumerate(banks)}
    return tuple(sorted(taken, key=lambda chosen: (chosen[1].level, place[chosen[0].sha256], chosen[1].line)))


def blueprint(banks: Sequence[Bank], level: int, exercises: int) -> tuple[Chosen, ...]:
    """The same exercises whenever it is asked: of each topic in turn the first of a level, as the bank has them.

    Fewer where the banks hold no more, none where they hold none.
    """
    by_topic = [[(bank, exercise) for exercise in bank.exercises if exercise.level == level] for bank in banks]
    return tuple(_in_turn(by_topic)[:exercises])


def _in_turn(by_topic: Sequence[Sequence[Chosen]]) -> list[Chosen]:
    return [chosen for turn in zip_longest(*by_topic) for chosen in turn if chosen is not None]


def _picked(banks: Sequence[Bank], names: tuple[str, ...]) -> tuple[Chosen, ...]:
    known = {exercise.name: (bank, exercise) for bank in banks for exercise in bank.exercises}
    if missing := [name for name in names if name not in known]:
        raise CannotDeal(f"no exercise is named {missing[0]}; these banks hold {', '.join(sorted(known))}")
    return tuple(known[name] for name in names)


def deal_sitting(
    heads: Heads,
    banks: Sequence[Bank],
    safety: SafetyNotes | None,
    chosen: Sequence[Chosen],
    spaces: Sequence[Space],
    had: Sequence[VariantsHad] = (),
) -> Sitting:
    """The sitting: one paper a learner. `spaces` are the proved spaces of `chosen`, in order.

    `had` is what each learner has had of these exercises before and does not get again. The sitting goes by the
    settings that its banks are compiled for. Raises `CannotDeal` where a learner has had every variant of an exercise.
    """
    learners = heads.group.learners
    mark = "".join(bank.sha256 for bank in banks)
    variants = [
        unused_variants(space, len(learners), had, heads.seed, mark, bank.sha256, exercise.name)
        for (bank, exercise), space in zip(chosen, spaces, strict=True)
    ]
    sites = [invented_site(keyed(heads.seed, "site", exercise.name)) for _, exercise in chosen]
    papers: list[IssuedPaper] = []
    for index, (learner, paper_code) in enumerate(zip(learners, _codes(heads.seed, mark, len(learners)), strict=True)):
        exercises = tuple(
            issue_exercise(number, bank, exercise, space.variant(dealt[index]), site, heads.seed, paper_code)
            for number, ((bank, exercise), space, dealt, site) in enumerate(
                zip(chosen, spaces, variants, sites, strict=True), 1
            )
        )
        papers.append(IssuedPaper(code=paper_code, learner=learner, exercises=exercises))
    return Sitting(
        code=code(heads.seed, "sitting", mark, heads.title, heads.date),
        title=heads.title,
        date=heads.date,
        group=heads.group.name,
        seed=heads.seed,
        settings=banks[0].settings.of_a_sitting(),
        version=heads.version,
        banks=tuple(SourceFile(file=bank.file, sha256=bank.sha256, text=bank.text) for bank in banks),
        safety=SourceFile(file=safety.file, sha256=safety.sha256, text=safety.text) if safety else None,
        papers=tuple(papers),
        retake_of=heads.retake_of,
        due=heads.due,
        approved_by=heads.approved_by,
    )


def shared_variants(spaces: Sequence[Space], learners: int) -> tuple[tuple[str, int], ...]:
    """Exercises (name, variants) with fewer variants than learners, whose variants must come more than once."""
    return tuple((space.exercise.name, len(space)) for space in spaces if len(space) < learners)


def _codes(seed: str, mark: str, count: int) -> list[str]:
    """A code a paper, none twice; where chance repeats one, the next is taken."""
    codes: dict[str, None] = {}
    turn = 0
    while len(codes) < count:
        codes[code(seed, "paper", mark, str(turn))] = None
        turn += 1
    return list(codes)


def issue_exercise(
    number: int, bank: Bank, exercise: Exercise, given: Given, site: Mapping[str, str], seed: str, paper: str
) -> IssuedExercise:
    """Exercise `number` of a paper for one variant; setting and order of choices are drawn from seed and paper."""
    solved = solve(exercise, given)
    scope = scope_of(given, solved)
    setting = ""
    if exercise.settings:
        drawn = exercise.settings[keyed(seed, "setting", paper, exercise.name) % len(exercise.settings)]
        setting = drawn.render(scope, site)
    parts: list[IssuedPart] = []
    for place, part in enumerate(solved):
        own = labels(number, part.part, place)
        parts += PAPER_KINDS[part.part.kind].issue(part, own, scope, site, (seed, paper, exercise.name))
    return IssuedExercise(
        topic=bank.topic,
        exercise=exercise.name,
        given=given_texts(given),
        site=site,
        setting=setting,
        parts=tuple(parts),
    )
