"""Practice made: one page for a phone, or a printed booklet, of variants that no sitting is dealt."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from courseware.banks import Bank, SafetyNotes, Space
from courseware.files.atomic import write_whole
from courseware.files.bank_files import find_banks, read_banks, shipped_folder
from courseware.glossary.sheets import Glossary
from courseware.jobs.task import Task, own_givens
from courseware.papers.deal import Choosing, Chosen, choose
from courseware.papers.shares import ENOUGH, for_practice
from courseware.papers.titles import in_one_line
from courseware.papers.unused_variants import CannotDeal
from courseware.practice.booklet import compose_booklet
from courseware.practice.kinds import PracticeKind, needs_paper, practice_kinds, variants_of_each
from courseware.practice.of_the_job import of_the_job
from courseware.practice.one_file import practice_page
from courseware.practice.site import BOOKLET, practice_site
from courseware.settings.settings import Settings
from courseware.workflows.jobs import WORKSHEET, find_job
from courseware.workflows.proving import proved
from courseware.workflows.watch import Watch

_MOST_NAMED = 3  # topics in a title
_MANY = "Bricklaying calculations"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToPractise:
    """Exercises with their spaces for practice, the safety notes and a title."""

    chosen: tuple[Chosen, ...]
    spaces: tuple[Space, ...]
    notes: SafetyNotes | None
    title: str


def to_practise(
    named: Sequence[str],
    job: str | None,
    level: int | None,
    settings: Settings,
    processes: int,
    watch: Watch,
    picked: tuple[str, ...] = (),
) -> ToPractise:
    """What the banks named hold for practice, proved first; with a job, what comes nearest to its own figures.

    `picked` names exercises, where not all are wanted.

    Raises `CannotDeal` where nothing is left, and `ProofsFailed`.
    """
    task = find_job(job, settings) if job is not None else None
    worksheet = (shipped_folder() / "jobs" / WORKSHEET,) if task else ()
    banks, notes = read_banks((*worksheet, *find_banks(named)), settings)
    chosen = choose(banks, Choosing(picked=picked), "any") if picked else _of_level(banks, level, task)
    spaces = _practice_shares(chosen, task, processes, watch)
    return ToPractise(chosen=chosen, spaces=spaces, notes=notes, title=task.shape.job if task else _title(chosen))


def write_page(file: Path, found: ToPractise, glossary: Glossary, watch: Watch) -> tuple[int, int]:
    """Writes the practice page. Returns how many kinds of question are on it, and its bytes. Raises `CannotDeal`."""
    kinds = _composed(found, watch)
    page = practice_page(kinds, found.title, glossary).encode()
    file.parent.mkdir(parents=True, exist_ok=True)
    write_whole(file, page)
    return len(kinds), len(page)


def write_site(
    folder: Path, found: ToPractise, glossary: Glossary, watch: Watch, *, booklet: bool = False
) -> tuple[int, int]:
    """Writes the practice page as a site of files. Returns how many kinds it has, and its bytes. Raises `CannotDeal`.

    With the `booklet` to print beside it, the page leads there whoever has too old a browser. The page is written
    last, so that it never stands without its questions.
    """
    kinds = _composed(found, watch)
    files = practice_site(kinds, found.title, glossary, booklet=booklet)
    folder.mkdir(parents=True, exist_ok=True)
    if booklet:
        write_booklet(folder / BOOKLET, found)
    for name, data in reversed(tuple(files.items())):
        write_whole(folder / name, data)
    return len(kinds), sum(map(len, files.values()))


def _composed(found: ToPractise, watch: Watch) -> list[PracticeKind]:
    kinds: list[PracticeKind] = []
    with watch.progress("Composing questions", len(found.chosen)) as tell:
        for pair, space in zip(found.chosen, found.spaces, strict=True):
            kinds += practice_kinds((pair,), (space,), found.notes, variants_of_each(len(found.chosen)))
            tell(1)
    for _, exercise in found.chosen:
        if needs_paper(exercise):
            watch.note(
                f"{exercise.name} is drawn at true size: few screens have the room, so print the booklet too (--print)."
            )
    return kinds


def write_booklet(file: Path, found: ToPractise) -> None:
    """Writes the booklet to print."""
    from courseware.printing.render import booklet_pdf

    pdf = booklet_pdf(compose_booklet(found.chosen, found.spaces, found.notes, secrets.token_hex(32)))
    file.parent.mkdir(parents=True, exist_ok=True)
    write_whole(file, pdf)


def _of_level(banks: Sequence[Bank], level: int | None, task: Task | None) -> tuple[Chosen, ...]:
    chosen = tuple(
        (bank, exercise)
        for bank in banks
        for exercise in bank.exercises
        if level in (None, exercise.level) and (task is None or exercise.format == task.brick)
    )
    if not chosen:
        raise CannotDeal("these banks hold no exercise of that level, or none in the job's bricks")
    return chosen


def _practice_shares(chosen: Sequence[Chosen], task: Task | None, processes: int, watch: Watch) -> tuple[Space, ...]:
    """What each exercise has for practice, proved first: a bank that fails its proof makes no page."""
    proofs = proved(chosen, processes, "is neither practised nor shown", watch)
    spaces = [for_practice(proof.space) for proof in proofs]
    for proof, space in zip(proofs, spaces, strict=True):
        if not len(space):
            name, size = proof.space.exercise.name, len(proof.space)
            watch.note(f"{name} has {size} variants, all kept for papers; from {ENOUGH} it is practised.")
    if task is not None:
        spaces = [of_the_job(space, own_givens(task)) for space in spaces]
    if not any(len(space) for space in spaces):
        raise CannotDeal("no variant of these exercises is for practice")
    return tuple(spaces)


def _title(chosen: Sequence[Chosen]) -> str:
    topics = list(dict.fromkeys(bank.topic for bank, _ in chosen))
    return in_one_line(topics) if len(topics) <= _MOST_NAMED else _MANY
