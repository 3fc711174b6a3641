"""What the commands have in common: a group read, banks proved, a sitting or a job made, all told at the terminal."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

import click

from courseware import __version__

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from courseware.banks import Bank, Proof, SafetyNotes
    from courseware.jobs.task import Task
    from courseware.papers.class_list import ClassList
    from courseware.papers.deal import Chosen, Heads
    from courseware.papers.fresh import Had
    from courseware.papers.group import Group

FAILED = 1  # exit code: a proof failed


def group_of(file: str | None, learners: int | None, name: str | None) -> Group:
    """The group of a class list, told of its doubts, or one of numbered papers."""
    from courseware.papers.group import Group, numbered

    if file is None:
        return numbered(learners or 1)
    return Group(name=name or group_name(file), learners=listed(file).learners)


def listed(file: str, *, levels: bool = False) -> ClassList:
    """What a class list holds, told of its doubts."""
    from pathlib import Path

    from courseware.desk.shelf import read_file
    from courseware.papers.class_list import read_class_list

    found = read_class_list(read_file(Path(file)), Path(file).name, levels=levels)
    for note in found.notes:
        click.echo(f"Note: {note}", err=True)
    return found


def group_name(file: str) -> str:
    """The name of a group from its class list's file: `group-a.csv` gives `Group a`."""
    from pathlib import Path

    words = Path(file).stem.replace("-", " ").replace("_", " ")
    return words[:1].upper() + words[1:]


def issue_sitting(named: tuple[str, ...], group: Group, date: str, options: dict[str, Any]) -> Path:
    """Chooses from the banks named, then proves, deals and prints; tells where all of it is. Returns the folder."""
    import secrets

    from courseware.desk.shelf import find_banks, read_shelf
    from courseware.papers.deal import Choosing, Heads, choose

    check_options(options)
    banks, notes = read_shelf(find_banks(named), options["arris_rule"])
    if options["seed"]:
        click.echo("Note: a seed that was typed can be guessed; for a formal assessment leave --seed out.", err=True)
    choosing = Choosing(level=options["level"], exercises=options["exercises"], picked=options["pick"])
    seed = options["seed"] or secrets.token_hex(32)
    chosen = choose(banks, choosing, seed)  # by the secret seed too: nobody can know the questions in advance
    heads = Heads(
        title=options["title"] or title_of([bank.topic for bank in banks if any(own is bank for own, _ in chosen)]),
        date=date,
        group=group,
        seed=seed,
        arris_rule=options["arris_rule"],
        version=__version__,
    )
    folder = _prove_and_print(
        heads,
        banks,
        notes,
        chosen,
        options["out"],
        options["jobs"],
        typed_seed=options["seed"],
        one_for_each=True,
        asked=[[bank.sha256 for bank in banks], options["level"], options["exercises"], options["pick"]],
    )
    _tell_issued(folder, group, banks, options["arris_rule"])
    return folder


def issue_like(named: str, group: Group, date: str, options: dict[str, Any]) -> None:
    """Issues the exercises of another sitting to this group, from the banks that its record holds, dealt anew.

    Whoever stood in that sitting, or in one beside it, gets no variant that they had.
    """
    import secrets

    from courseware.desk.marking import place_of
    from courseware.desk.retaking import banks_of, had_in_group, worksheet_on_a_job
    from courseware.desk.shelf import NotFound
    from courseware.papers.deal import Heads

    check_options(options)
    place = place_of(named)
    sitting = place.sitting
    if worksheet_on_a_job(sitting):
        raise NotFound("the figures of these worksheets are a job's; make them with `courseware job`, for any group")
    banks, notes, chosen = banks_of(sitting)
    heads = Heads(
        title=options["title"] or sitting.title,
        date=date,
        group=group,
        seed=options["seed"] or secrets.token_hex(32),
        arris_rule=sitting.arris_rule,
        version=__version__,
    )
    folder = _prove_and_print(
        heads, banks, notes, chosen, options["out"], options["jobs"], typed_seed=options["seed"], one_for_each=True,
        asked=_names(chosen), had=had_in_group(group.learners, place, options["out"]),
    )  # fmt: skip
    _tell_issued(folder, group, banks, sitting.arris_rule)


def retake(named: str, learners: tuple[str, ...], date: str, options: dict[str, Any]) -> None:
    """Issues the exercises of a sitting again to its learners, or some of them: variants that they have not had."""
    import secrets

    from courseware.desk.marking import place_of
    from courseware.desk.retaking import banks_of, had_before, learners_of
    from courseware.papers.deal import Heads
    from courseware.papers.group import Group
    from courseware.papers.soundness import LONGEST_TITLE

    check_out(options["out"])
    place = place_of(named)
    banks, notes, chosen = banks_of(place.sitting)
    papers = learners_of(place.sitting, learners)
    group = Group(name=place.sitting.group, learners=tuple(paper.learner for paper in papers))
    heads = Heads(
        title=options["title"] or f"Retake: {place.sitting.title}"[:LONGEST_TITLE],
        date=date,
        group=group,
        seed=options["seed"] or secrets.token_hex(32),
        arris_rule=place.sitting.arris_rule,
        version=__version__,
        retake_of=place.sitting.code,
    )
    had = had_before(papers, place, options["out"])
    folder = _prove_and_print(
        heads, banks, notes, chosen, options["out"], options["jobs"], typed_seed=options["seed"], one_for_each=True,
        asked=_names(chosen), had=had,
    )  # fmt: skip
    _tell_issued(folder, group, banks, place.sitting.arris_rule)
    _take_in(folder)


def _take_in(folder: Path) -> None:
    """Takes a sitting just issued into the record beside it, or the one that the environment names, where it is."""
    from datetime import UTC, datetime

    from courseware.desk.folder import one_at_a_time
    from courseware.desk.marking import place_of
    from courseware.desk.record_place import opened, record_file, record_url
    from courseware.desk.shelf import NotFound
    from courseware.desk.sitting_files import RECORD
    from courseware.evidence.sittings import take
    from courseware.evidence.written import note_files
    from courseware.papers.record import RecordFaulty

    out = folder.resolve().parent
    try:
        url = record_url(None, out)
        if (file := record_file(url)) is not None and not file.exists():
            return
        new = place_of(str(folder))
        with one_at_a_time(out, waiting), opened(url, make=False) as engine:
            take(engine, new.sitting, new.text, at=datetime.now(UTC))
            note_files(engine, [folder / RECORD])
    except (NotFound, RecordFaulty) as refused:
        click.echo(f"Note: the retake is issued, but the record did not take it in: {refused}", err=True)


def _tell_issued(folder: Path, group: Group, banks: tuple[Bank, ...], arris_rule: str) -> None:
    from courseware.desk.sitting_files import ALL_KEYS, ALL_PAPERS, SHEET

    count = len(group.learners)
    click.echo(f"{count} paper{'' if count == 1 else 's'} and key{'' if count == 1 else 's'} in {folder}")
    if any("arris_rule" in bank.text for bank in banks):
        click.echo(f"  The arris rule is `{arris_rule}`; centres differ: see --arris-rule.")
    click.echo(f"  to hand out:  {folder / ALL_PAPERS}")
    click.echo(f"  for yourself: {folder / ALL_KEYS} and {SHEET}")


def issue_worksheet(task: Task, group: Group, date: str, out: str, arris_rule: str, jobs: int | None) -> None:
    """A sitting whose givens are those of the job, the same for every learner."""
    import secrets

    from courseware.desk.jobs import worksheet
    from courseware.desk.shelf import shipped_notes
    from courseware.papers.deal import Heads
    from courseware.papers.soundness import LONGEST_TITLE

    bank, exercises = worksheet(task, arris_rule)
    heads = Heads(
        title=f"Worksheet: {task.shape.job}"[:LONGEST_TITLE],
        date=date,
        group=group,
        seed=secrets.token_hex(32),
        arris_rule=arris_rule,
        version=__version__,
    )
    chosen = tuple((bank, exercise) for exercise in exercises)
    folder = _prove_and_print(
        heads, (bank,), shipped_notes(), chosen, out, jobs, typed_seed=None, one_for_each=False, asked=_names(chosen)
    )
    click.echo(f"Worksheets on the job, and their keys, in {folder}")


def _names(chosen: Sequence[Chosen]) -> list[list[str]]:
    """The exercises of a request that names them, with their givens: a worksheet's are narrowed to the job's own."""
    return [
        [bank.sha256, exercise.name, *(f"{given.name}: {given.values}" for given in exercise.givens)]
        for bank, exercise in chosen
    ]


def _prove_and_print(
    heads: Heads,
    banks: tuple[Bank, ...],
    notes: SafetyNotes | None,
    chosen: tuple[Chosen, ...],
    out: str,
    jobs: int | None,
    *,
    typed_seed: str | None,
    one_for_each: bool,
    asked: object,
    had: Sequence[Had] = (),
) -> Path:
    """What every sitting goes through: nothing is issued that fails its proof, and every doubt is told.

    `one_for_each`: whether variants that must be shared are worth telling.
    """
    from pathlib import Path

    from courseware.desk import issuing
    from courseware.desk.progress import progress
    from courseware.papers.deal import shared_variants
    from courseware.papers.shares import for_papers

    proofs = proved(chosen, heads.arris_rule, jobs, "is not issued")
    spaces, learners = [for_papers(proof.space) for proof in proofs], heads.group.learners
    for name, size in shared_variants(spaces, len(learners)) if one_for_each else ():
        click.echo(f"Note: {name} has {size} variants for {len(learners)} learners; some are shared.", err=True)
    with progress("Printing", 2 * len(learners)) as tell:
        folder, resumed = issuing.issue(
            heads, banks, notes, chosen, spaces, Path(out), jobs or cores(), tell, waiting,
            typed_seed=typed_seed, asked=asked, had=had,
        )  # fmt: skip
    from courseware.printing.engine import cuts_fonts_fast
    from courseware.printing.letters import unprintable_names

    if not cuts_fonts_fast():
        click.echo("Note: with the library libharfbuzz-subset0 installed, printing is twice as fast.", err=True)
    if resumed:
        click.echo("Went on from a run that had been stopped.")
    for note in unprintable_names(learners):
        click.echo(f"Note: {note}", err=True)
    return folder


def write_jobs(jobs: tuple[str, ...], date: str, out: str, arris_rule: str) -> tuple[Task, ...]:
    """Writes the sheets of each job, all of them read first. Returns the tasks."""
    from pathlib import Path

    from courseware.desk.jobs import find_job, write_job
    from courseware.desk.shelf import shipped_notes

    check_out(out)
    tasks = tuple(find_job(name, arris_rule) for name in jobs)
    for task in tasks:
        folder = write_job(task, shipped_notes(), date, arris_rule, Path(out), waiting)
        click.echo(f"Job sheets in {folder}")
    return tasks


def check_out(out: str) -> None:
    """Refuses a folder that cannot be written to, before any work is done."""
    from pathlib import Path

    from courseware.desk.folder import unusable

    if why := unusable(Path(out)):
        raise click.BadParameter(f"{out} cannot be written to: {why}", param_hint="--out")


def check_options(options: dict[str, Any]) -> None:
    """Refuses texts that no page can hold, and a folder that cannot be written to, before any work is done."""
    from courseware.papers.soundness import LONGEST_TITLE, plain

    for option in ("title", "group_name", "seed"):
        text = options.get(option)
        if text is not None and not plain(text, LONGEST_TITLE):
            advice = f"use at most {LONGEST_TITLE} characters, all of which can be seen"
            raise click.BadParameter(advice, param_hint=f"--{option.replace('_', '-')}")
    check_out(options["out"])
    if len(set(options["pick"])) < len(options["pick"]):
        raise click.BadParameter("each exercise once on a paper", param_hint="--pick")


def title_of(topics: list[str]) -> str:
    """The topics in words; of those that are too long for a title as many as fit, and how many more there are."""
    from courseware.papers.soundness import LONGEST_TITLE

    each = list(dict.fromkeys(topics))
    titles = [in_words(each)]
    for named in range(len(each) - 1, 0, -1):
        left = len(each) - named
        titles.append(in_words([*each[:named], f"{left} more topic{'' if left == 1 else 's'}"]))
    return next((title for title in titles if len(title) <= LONGEST_TITLE), each[0][:LONGEST_TITLE])


def in_words(topics: list[str]) -> str:
    """Each topic once: `Opening sizes, course gauge and resource lists`."""
    first, *others = dict.fromkeys(topics)
    *middle, last = [topic[:1].lower() + topic[1:] for topic in others] or [""]
    return ", ".join([first, *middle]) + (f" and {last}" if last else "")


def day(typed: str | None) -> str:
    from datetime import date

    try:
        return (date.fromisoformat(typed) if typed else date.today()).isoformat()
    except ValueError:
        raise click.BadParameter(f"{typed} is not a date; write it as 2026-11-25", param_hint="--date") from None


def waiting() -> None:
    click.echo("Another run is writing to this folder; waiting for it to end.", err=True)


def prove_chosen(chosen: Any, arris_rule: str, jobs: int | None) -> tuple[Proof, ...]:
    from courseware.banks import raw_size
    from courseware.desk.progress import progress
    from courseware.desk.proving import prove_all

    with progress("Proving variants", sum(raw_size(exercise) for _, exercise in chosen)) as tell:
        return prove_all(chosen, arris_rule, jobs or cores(), tell)


def proved(chosen: Any, arris_rule: str, jobs: int | None, refused: str) -> tuple[Proof, ...]:
    """The proofs of exercises all of which pass; else tells each failure, what is `refused`, and ends the run."""
    from courseware.desk.proving import first_failures
    from courseware.desk.reports import tell_failure

    proofs = prove_chosen(chosen, arris_rule, jobs)
    failures = list(first_failures(proofs))
    for exercise, failure in failures:
        tell_failure(exercise, failure)
    if failures:
        click.echo(f"A bank that fails its proof {refused}; nothing was made.", err=True)
        raise click.exceptions.Exit(FAILED)
    return proofs


def who_says(named: str | None, option: str) -> str:
    """Whose name a record keeps beside what is done: the one given, else the one logged in by."""
    from getpass import getuser

    from courseware.papers.names import LONGEST_NAME
    from courseware.papers.soundness import plain

    who = (named or getuser()).strip()
    if not who or not plain(who, LONGEST_NAME):
        raise click.BadParameter(f"write a name of at most {LONGEST_NAME} plain characters", param_hint=option)
    return who


def cores() -> int:
    return 2 if (os.cpu_count() or 1) > 1 else 1
