"""`courseware practise`: one page for a phone, or a printed booklet, of variants that no sitting is dealt."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.errands import check_out, in_words, proved

if TYPE_CHECKING:
    from courseware.banks import Bank, SafetyNotes, Space
    from courseware.jobs.task import Task
    from courseware.papers.deal import Chosen

_MOST_NAMED = 3  # topics in a title
_MANY = "Bricklaying calculations"


@click.command()
@click.argument("banks", nargs=-1, metavar="[BANK]...")
@click.option("--level", type=click.IntRange(1, 3), default=None, help="Only exercises of this level.")
@click.option("--job", default=None, metavar="JOB", help="Figures near those of this job: a job's file or short name.")
@click.option("--out", default=None, metavar="FILE", help="The file to write [default: output/practice.html, or .pdf].")
@click.option("--print", "printed", is_flag=True, help="Instead of the page: a booklet to print, answers at the back.")
@click.option(
    "--arris-rule",
    type=click.Choice(["outline", "near"]),
    default="outline",
    show_default=True,
    help="Which arris of a projecting course this centre levels.",
)
@click.option("--jobs", type=click.IntRange(1, 64), default=None, help="Processes at work at once.")
def practise(
    banks: tuple[str, ...],
    level: int | None,
    job: str | None,
    out: str | None,
    printed: bool,
    arris_rule: str,
    jobs: int | None,
) -> None:
    """Make a page to practise BANKs at home (files, or shipped topics by name; all of those if none): one file."""
    if not banks and job is None:
        from courseware.desk.shelf import shipped_banks

        banks = tuple(path.stem for path in shipped_banks())
    file = Path(out or ("output/practice.pdf" if printed else "output/practice.html"))
    if file.is_dir():
        raise click.BadParameter(f"{file} is a folder; name a file in it", param_hint="--out")
    check_out(str(file.parent))
    read, notes, task = _read(banks, job, arris_rule)
    chosen = _of_level(read, level, task)
    spaces = _practice_shares(chosen, task, arris_rule, jobs)
    if printed:
        _print(file, chosen, spaces, notes)
    else:
        _write_page(file, chosen, spaces, notes, task.shape.job if task else _title(chosen))


def _read(
    named: tuple[str, ...], job: str | None, arris_rule: str
) -> tuple[tuple[Bank, ...], SafetyNotes | None, Task | None]:
    """The banks named and their notes; with a job, its worksheet's bank first."""
    from courseware.desk.jobs import find_job
    from courseware.desk.shelf import find_banks, read_shelf, shipped_folder

    task = find_job(job, arris_rule) if job is not None else None
    worksheet = (shipped_folder() / "jobs" / "worksheet.yaml",) if task else ()
    banks, notes = read_shelf((*worksheet, *find_banks(named)), arris_rule)
    return banks, notes, task


def _of_level(banks: tuple[Bank, ...], level: int | None, task: Task | None) -> tuple[Chosen, ...]:
    from courseware.papers.fresh import CannotDeal

    chosen = tuple(
        (bank, exercise)
        for bank in banks
        for exercise in bank.exercises
        if level in (None, exercise.level) and (task is None or exercise.format == task.brick)
    )
    if not chosen:
        raise CannotDeal("these banks hold no exercise of that level, or none in the job's bricks")
    return chosen


def _practice_shares(
    chosen: tuple[Chosen, ...], task: Task | None, arris_rule: str, jobs: int | None
) -> tuple[Space, ...]:
    """What each exercise has for practice, proved first: a bank that fails its proof makes no page."""
    from courseware.jobs.task import own_givens
    from courseware.papers.fresh import CannotDeal
    from courseware.papers.shares import ENOUGH, for_practice
    from courseware.practice.of_the_job import of_the_job

    proofs = proved(chosen, arris_rule, jobs, "makes no practice")
    spaces = [for_practice(proof.space) for proof in proofs]
    for proof, space in zip(proofs, spaces, strict=True):
        if not len(space):
            name, size = proof.space.exercise.name, len(proof.space)
            click.echo(
                f"Note: {name} has {size} variants, all kept for papers; from {ENOUGH} it is practised.", err=True
            )
    if task is not None:
        spaces = [of_the_job(space, own_givens(task)) for space in spaces]
    if not any(len(space) for space in spaces):
        raise CannotDeal("no variant of these exercises is for practice")
    return tuple(spaces)


def _write_page(
    file: Path, chosen: tuple[Chosen, ...], spaces: tuple[Space, ...], notes: SafetyNotes | None, title: str
) -> None:
    from courseware.desk.folder import write_whole
    from courseware.desk.progress import progress
    from courseware.papers.fresh import CannotDeal
    from courseware.practice.kinds import PracticeKind, needs_paper, practice_kinds
    from courseware.practice.one_file import practice_page

    kinds: list[PracticeKind] = []
    with progress("Composing questions", len(chosen)) as tell:
        for pair, space in zip(chosen, spaces, strict=True):
            kinds += practice_kinds((pair,), (space,), notes)
            tell(1)
    for _, exercise in chosen:
        if needs_paper(exercise):
            click.echo(f"Note: {exercise.name} is drawn at true size, so only the booklet (--print) has it.", err=True)
    if not kinds:
        raise CannotDeal("these exercises are for paper: print the booklet with --print")
    page = practice_page(kinds, title).encode()
    file.parent.mkdir(parents=True, exist_ok=True)
    write_whole(file, page)
    count = len(kinds)
    size = f"{len(page) / 1e6:.1f} MB" if len(page) >= 100_000 else f"{len(page) // 1000} kB"
    click.echo(f"{count} kind{'' if count == 1 else 's'} of question to practise, {size}, in {file}")


def _print(file: Path, chosen: tuple[Chosen, ...], spaces: tuple[Space, ...], notes: SafetyNotes | None) -> None:
    import secrets

    from courseware.desk.folder import write_whole
    from courseware.practice.booklet import compose_booklet
    from courseware.printing.press import booklet_pdf

    pdf = booklet_pdf(compose_booklet(chosen, spaces, notes, secrets.token_hex(32)))
    file.parent.mkdir(parents=True, exist_ok=True)
    write_whole(file, pdf)
    click.echo(f"A booklet to print in {file}")


def _title(chosen: tuple[Chosen, ...]) -> str:
    topics = list(dict.fromkeys(bank.topic for bank, _ in chosen))
    return in_words(topics) if len(topics) <= _MOST_NAMED else _MANY
