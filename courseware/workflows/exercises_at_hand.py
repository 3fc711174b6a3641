"""Exercises to choose from, each seen as a real question: a variant with its drawing and key, and what it takes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path, PurePosixPath

from courseware.banks import Bank, Exercise, Proof, SafetyNotes, raw_size
from courseware.banks.space import given_at
from courseware.drawings.fitted import Sizes, on_phone, on_screen
from courseware.files.bank_files import NotFound, own_banks, read_banks, shipped_banks
from courseware.papers.codes import keyed, shuffled
from courseware.papers.compose import Sources, compose_exercise
from courseware.papers.deal import issue_exercise
from courseware.papers.exam_time import about_minutes
from courseware.papers.invented import invented_site
from courseware.papers.shares import for_practice
from courseware.papers.sheet_format import STANDARD, SheetFormat
from courseware.papers.sheets import DrawingCall, KeyExercise
from courseware.practice.lean_svg import lean_svg
from courseware.printing.page_format import page_for
from courseware.printing.sides_estimate import Blocks, about_blocks, about_sides
from courseware.reports.words import plain
from courseware.settings.settings import Settings
from courseware.text_files.faults import FileFaulty
from courseware.workflows.proof_in_time import prove_in_time

_SHOWN = "shown to choose from"  # no secret: what is shown is of the practice share, and no paper has it


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """An exercise by its bank's key (a shipped topic's short name, or its file in the folder of work) and its name."""

    bank: str
    exercise: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A drawing as SVG, laid out for a wide screen and for a phone."""

    wide: str
    narrow: str
    alt: str


@dataclass(frozen=True, eq=False)
class ExerciseAtHand:
    """An exercise of a bank. What needs its proof is worked out when it is asked for, once."""

    bank: Bank
    exercise: Exercise
    notes: SafetyNotes | None
    pick: Pick
    path: Path
    settings: Settings

    @property
    def title(self) -> str:
        """Its name as a heading."""
        words = plain(self.exercise.name)
        return words[:1].upper() + words[1:]

    @property
    def minutes(self) -> int:
        """About how long it takes."""
        return about_minutes(self.exercise.marks)

    @cached_property
    def proof(self) -> Proof:
        """Its proof, which takes up to a second; of a huge exercise some more, after which it has failed."""
        return prove_in_time(self.exercise, self.path, self.settings)

    @property
    def fault(self) -> str:
        """Why it fails its proof, so that it cannot be issued; '' where it does not."""
        failure = self.proof.failure
        return f"with {failure.given}: {failure.why}" if failure else ""

    @property
    def variants(self) -> int:
        """How many of its variants can be shown: those for practice, or all where there are too few to share."""
        return len(self._shown)

    @cached_property
    def _shown(self) -> tuple[int, ...]:
        space = for_practice(self.proof.space)
        return tuple(space.indices if len(space) else self.proof.space.indices)

    def question(self, turn: int = 0) -> KeyExercise:
        """A variant with its key, another at each turn. Raises `NotFound` where the exercise fails its proof."""
        return _question(self, turn % max(1, self.variants))

    def blocks(self, sheets: SheetFormat = STANDARD) -> Blocks:
        """About how high its pieces stand on a paper set so."""
        return _blocks(self, sheets)


@dataclass(frozen=True, eq=False)
class BankAtHand:
    """A bank with its exercises; or none and what is wrong with it."""

    key: str
    topic: str
    aim: str = ""
    own: bool = False  # the tutor's
    exercises: tuple[ExerciseAtHand, ...] = ()
    fault: str = ""

    @property
    def name(self) -> str:
        """Its short name, as that of a shipped topic is."""
        return PurePosixPath(self.key).stem

    @property
    def levels(self) -> tuple[int, ...]:
        """The levels of its exercises."""
        return tuple(sorted({one.exercise.level for one in self.exercises}))

    @cached_property
    def picture(self) -> Drawn | None:
        """A drawing of one of its exercises: of those that have one, the one that is proved soonest."""
        drawings = [one for one in self.exercises if one.exercise.drawing]
        for one in sorted(drawings, key=lambda one: raw_size(one.exercise)):
            if not one.proof.failure and (call := one.question().asked.drawing):
                return drawn(call)
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """What a choice of exercises comes to; minutes and sides are rough counts."""

    exercises: int
    marks: int
    minutes: int
    sides: int


def banks_at_hand(work: Path, settings: Settings) -> tuple[BankAtHand, ...]:
    """The shipped topics, then the tutor's own in a folder of work."""
    own = own_banks(work)
    sitting = settings.of_a_sitting()
    return tuple(
        _read(path, path.stem if path not in own else path.relative_to(work).as_posix(), _stamp(path), sitting)
        for path in (*shipped_banks(), *own)
    )


def find_exercises(banks: Sequence[BankAtHand], picks: Iterable[Pick]) -> tuple[ExerciseAtHand, ...]:
    """The exercises picked, in their order. Raises `NotFound` for one that is in no bank any more."""
    known = {one.pick: one for bank in banks for one in bank.exercises}
    found = []
    for pick in picks:
        if pick not in known:
            raise NotFound(f"{plain(pick.exercise)} is in no bank any more; take it off the paper")
        found.append(known[pick])
    return tuple(found)


def totals(chosen: Sequence[ExerciseAtHand], sheets: SheetFormat = STANDARD) -> Totals:
    """What these exercises come to on a paper set so."""
    marks = sum(one.exercise.marks for one in chosen)
    cautions = any((*one.bank.safety, *one.exercise.safety) for one in chosen)
    return Totals(
        exercises=len(chosen),
        marks=marks,
        minutes=about_minutes(marks, sheets.extra_time),
        sides=about_sides([one.blocks(sheets) for one in chosen], page_for(sheets), cautions=cautions),
    )


def sides_in_all(chosen: Sequence[ExerciseAtHand], formats: Sequence[SheetFormat]) -> int:
    """About how many sides the papers of a class take, one set in each of these ways."""
    each = {sheets: totals(chosen, sheets).sides for sheets in set(formats)}
    return sum(each[sheets] for sheets in formats)


def drawn(call: DrawingCall) -> Drawn:
    """A drawing as SVG for screens."""
    sizes = Sizes(call)
    return Drawn(wide=lean_svg(on_screen(sizes)), narrow=lean_svg(on_phone(sizes)), alt=call.alt)


def _stamp(path: Path) -> tuple[int, ...]:
    """What changes when a bank, or a drawing beside it, does."""
    return tuple(sorted(file.stat().st_mtime_ns for file in path.parent.iterdir() if file.is_file()))


@lru_cache(maxsize=200)
def _read(path: Path, key: str, _: tuple[int, ...], settings: Settings) -> BankAtHand:
    own = "/" in key
    try:
        [bank], notes = read_banks([path], settings)
    except (FileFaulty, NotFound) as faulty:
        first = str(faulty).splitlines()[0]
        return BankAtHand(key=key, topic=plain(path.stem).capitalize(), own=own, fault=first)
    found = tuple(
        ExerciseAtHand(
            bank=bank, exercise=one, notes=notes, pick=Pick(bank=key, exercise=one.name), path=path, settings=settings
        )
        for one in bank.exercises
    )
    return BankAtHand(key=key, topic=bank.topic, aim=bank.aim, own=own, exercises=found)


@lru_cache(maxsize=400)
def _question(one: ExerciseAtHand, turn: int) -> KeyExercise:
    if one.fault:
        raise NotFound(f"{one.title} fails its proof, {one.fault}")
    bank, exercise = one.bank, one.exercise
    raw = shuffled(list(one._shown), _SHOWN, bank.sha256, exercise.name)[turn]
    site = invented_site(keyed(_SHOWN, "site", exercise.name, str(turn)))
    issued = issue_exercise(1, bank, exercise, given_at(exercise, raw), site, _SHOWN, str(turn))
    sources = Sources(exercises={(bank.topic, exercise.name): (bank, exercise)}, safety=one.notes)
    return compose_exercise(1, issued, sources, numbered=False)


@lru_cache(maxsize=400)
def _blocks(one: ExerciseAtHand, sheets: SheetFormat) -> Blocks:
    return about_blocks(one.question().asked, page_for(sheets))
