"""The commands. Each reads its options, calls the desk and prints what came of it."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any

import click

from courseware import __version__

if TYPE_CHECKING:
    from courseware.banks import Proof

_FAILED, _FAULTY, _STOPPED = 1, 2, 3

_RULE = click.Choice(["outline", "near"])
_rule_option = click.option(
    "--arris-rule",
    type=_RULE,
    default="outline",
    show_default=True,
    help="Which arris of a projecting course this centre levels: the outline's, or the one nearer the eye.",
)
_jobs_option = click.option(
    "--jobs",
    type=click.IntRange(1, 64),
    default=None,
    help="Processes at work at once (two where there are two cores).",
)


class _Commands(click.Group):
    """Turns what may be expected to go wrong into one plain message and an exit code."""

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort):
            raise
        except KeyboardInterrupt:
            raise click.Abort from None
        except Exception as error:
            from courseware.desk.messages import explain

            message, code = explain(error)
            if message is None or code is None:
                raise
            click.echo(message, err=True)
            raise click.exceptions.Exit(code) from None


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="courseware")
def main() -> None:
    """Bricklaying papers and keys from question banks: proved, different for each learner, equally hard."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


@main.command()
def topics() -> None:
    """List the topics that come with the program, and their exercises."""
    from courseware.desk.reports import list_topics
    from courseware.desk.shelf import read_shelf, shipped_banks

    banks, notes = read_shelf(shipped_banks(), "outline")
    list_topics(banks, notes, shipped_banks())


@main.command()
@click.argument("banks", nargs=-1, metavar="[BANK]...")
@_rule_option
@_jobs_option
def check(banks: tuple[str, ...], arris_rule: str, jobs: int | None) -> None:
    """Prove every variant of every exercise in BANKs (files, or shipped topics by name; all of those if none)."""
    from courseware.desk.proving import first_failures
    from courseware.desk.reports import report_proofs, tell_failure
    from courseware.desk.shelf import find_banks, read_shelf, shipped_banks

    read, notes = read_shelf(find_banks(banks) if banks else shipped_banks(), arris_rule)
    chosen = tuple((bank, exercise) for bank in read for exercise in bank.exercises)
    if notes is not None and not chosen:
        click.echo(f"{notes.file}: {len(notes.notes)} safety notes, no faults.")
        return
    proofs = _prove(chosen, arris_rule, jobs)
    report_proofs(read, proofs)
    failures = list(first_failures(proofs))
    for exercise, failure in failures:
        tell_failure(exercise, failure)
    if failures:
        raise click.exceptions.Exit(_FAILED)


@main.command()
@click.argument("banks", nargs=-1, required=True, metavar="BANK...")
@click.option("--group", metavar="FILE", default=None, help="The class list: CSV or XLSX with a name on each row.")
@click.option("--group-name", default=None, help="The name of the group (from the class list's file unless given).")
@click.option("--learners", type=click.IntRange(1, 1000), default=None, help="Instead: so many numbered papers.")
@click.option("--title", default=None, help="The title of the papers (the topics unless given).")
@click.option("--date", default=None, help="The date on the papers, as 2026-11-25 (today unless given).")
@click.option("--level", type=click.IntRange(1, 3), default=None, help="Only exercises of this level.")
@click.option("--exercises", type=click.IntRange(1, 40), default=None, help="How many exercises a paper has.")
@click.option("--pick", multiple=True, metavar="NAME", help="Take this exercise; repeat it for more.")
@click.option("--out", default="output", show_default=True, help="The folder that the sitting's folder is made in.")
@click.option("--seed", default=None, help="A seed to deal from again (guessable: not for a formal assessment).")
@_rule_option
@_jobs_option
def issue(
    banks: tuple[str, ...],
    learners: int | None,
    group: str | None,
    group_name: str | None,
    date: str | None,
    **options: Any,
) -> None:
    """Make a paper and a key for each learner from BANKs (files, or shipped topics by name)."""
    from pathlib import Path

    from courseware.desk.shelf import read_file
    from courseware.papers.class_list import read_class_list
    from courseware.papers.group import Group, numbered

    if options["pick"] and (options["level"] or options["exercises"]):
        raise click.UsageError("--pick names the exercises: leave --level and --exercises out.")
    if (group is None) == (learners is None):
        raise click.UsageError("Give either --group with a class list, or --learners with a number.")
    if group is None:
        made = numbered(learners or 1)
    else:
        found = read_class_list(read_file(Path(group)), Path(group).name)
        for note in found.notes:
            click.echo(f"Note: {note}", err=True)
        words = Path(group).stem.replace("-", " ").replace("_", " ")
        made = Group(name=group_name or words[:1].upper() + words[1:], learners=found.learners)
    _issue(banks, made, _date(date), {**options, "group_name": group_name})


@main.command()
@_jobs_option
@click.option("--out", default="output", show_default=True, help="The folder that the sitting's folder is made in.")
def demo(jobs: int | None, out: str) -> None:
    """Make papers and keys for an invented college group of eight, and say where they are."""
    import secrets

    from courseware.desk.jobs import shipped_jobs
    from courseware.desk.shelf import shipped_banks
    from courseware.papers.invented import invented_group

    options: dict[str, Any] = {"title": "Setting out", "out": out, "jobs": jobs, "arris_rule": "outline", "seed": None}
    options |= {"level": None, "exercises": None, "pick": (), "group_name": None}
    banks = tuple(path.stem for path in shipped_banks())
    _issue(banks, invented_group(8, secrets.randbits(64)), _date(None), options)
    _write_jobs((next(iter(shipped_jobs())),), _date(None), out, "outline")


@main.command()
@click.argument("jobs", nargs=-1, required=True, metavar="JOB...")
@click.option("--date", default=None, help="The date on the sheets, as 2026-11-25 (today unless given).")
@click.option("--out", default="output", show_default=True, help="The folder that the job's folder is made in.")
@_rule_option
def job(jobs: tuple[str, ...], date: str | None, out: str, arris_rule: str) -> None:
    """Make the sheets of a practical task: job sheet, templates at true size, order, prompts, observation sheet."""
    _write_jobs(jobs, _date(date), out, arris_rule)


def _write_jobs(jobs: tuple[str, ...], date: str, out: str, arris_rule: str) -> None:
    from pathlib import Path

    from courseware.desk.folder import unusable
    from courseware.desk.jobs import find_job, write_job
    from courseware.desk.shelf import read_shelf, shipped_folder

    if why := unusable(Path(out)):
        raise click.BadParameter(f"{out} cannot be written to: {why}", param_hint="--out")
    tasks = [find_job(name, arris_rule) for name in jobs]
    _, notes = read_shelf((shipped_folder() / "safety_notes.yaml",), arris_rule)
    for task in tasks:
        click.echo(f"Job sheets in {write_job(task, notes, date, arris_rule, Path(out), _waiting)}")


@main.command()
@click.argument("sitting", metavar="SITTING")
@click.option("--out", default="output", show_default=True, help="The folder that the new folder is made in.")
@_jobs_option
def again(sitting: str, out: str, jobs: int | None) -> None:
    """Make the PDFs of SITTING (its folder or sitting.json) again from the record alone, byte for byte."""
    from pathlib import Path

    from courseware.desk.folder import unusable
    from courseware.desk.issuing import RECORD, again, record_text
    from courseware.desk.progress import progress
    from courseware.papers.record import read_record

    if why := unusable(Path(out)):
        raise click.BadParameter(f"{out} cannot be written to: {why}", param_hint="--out")
    record = Path(sitting) / RECORD if Path(sitting).is_dir() else Path(sitting)
    total = 2 * len(read_record(record_text(record)).papers)
    with progress("Printing", total) as tell:
        folder = again(record, Path(out), jobs or _cores(), tell, _waiting)
    click.echo(f"Made again in {folder}")


def _issue(named: tuple[str, ...], group: Any, date: str, options: dict[str, Any]) -> None:
    import secrets
    from pathlib import Path

    from courseware.desk import issuing
    from courseware.desk.progress import progress
    from courseware.desk.proving import first_failures
    from courseware.desk.reports import tell_failure
    from courseware.desk.shelf import find_banks, read_shelf
    from courseware.papers.deal import Choosing, Heads, choose, shared_variants

    _plain_options(options)
    banks, notes = read_shelf(find_banks(named), options["arris_rule"])
    seed = options["seed"] or secrets.token_hex(32)
    if options["seed"]:
        click.echo("Note: a seed that was typed can be guessed; for a formal assessment leave --seed out.", err=True)
    choosing = Choosing(level=options["level"], exercises=options["exercises"], picked=options["pick"])
    chosen = choose(banks, choosing, options["seed"] or "".join(bank.sha256 for bank in banks))
    proofs = _prove(chosen, options["arris_rule"], options["jobs"])
    failures = list(first_failures(proofs))
    for exercise, failure in failures:
        tell_failure(exercise, failure)
    if failures:
        click.echo("A bank that fails its proof is not issued; nothing was made.", err=True)
        raise click.exceptions.Exit(_FAILED)
    spaces = [proof.space for proof in proofs]
    for name, size in shared_variants(spaces, len(group.learners)):
        click.echo(f"Note: {name} has {size} variants for {len(group.learners)} learners; some are shared.", err=True)
    heads = Heads(
        title=options["title"] or _in_words([bank.topic for bank, _ in chosen]),
        date=date,
        group=group,
        seed=seed,
        arris_rule=options["arris_rule"],
        version=__version__,
    )
    out, jobs = Path(options["out"]), options["jobs"] or _cores()
    with progress("Printing", 2 * len(group.learners)) as tell:
        folder, resumed = issuing.issue(
            heads, banks, notes, chosen, spaces, out, jobs, tell, _waiting, typed_seed=options["seed"]
        )
    from courseware.printing.engine import cuts_fonts_fast
    from courseware.printing.letters import unprintable_names

    if not cuts_fonts_fast():
        click.echo("Note: with the library libharfbuzz-subset0 installed, printing is twice as fast.", err=True)
    if resumed:
        click.echo("Went on from a run that had been stopped.")
    for note in unprintable_names(group.learners):
        click.echo(f"Note: {note}", err=True)
    count = len(group.learners)
    click.echo(f"{count} paper{'' if count == 1 else 's'} and key{'' if count == 1 else 's'} in {folder}")
    if any(bank.topic and "arris_rule" in bank.text for bank in banks):
        click.echo(f"  The arris rule is `{options['arris_rule']}`; centres differ: see --arris-rule.")
    click.echo(f"  to hand out:  {folder / issuing.LEARNERS / 'all-papers.pdf'}")
    click.echo(f"  for yourself: {folder / issuing.TUTOR / 'all-keys.pdf'} and marking-sheet.xlsx")


def _plain_options(options: dict[str, Any]) -> None:
    """Refuses texts that no page can hold, and a folder that cannot be written to, before any work is done."""
    from pathlib import Path

    from courseware.desk.folder import unusable
    from courseware.papers.soundness import LONGEST_TITLE, plain

    for option in ("title", "group_name", "seed"):
        text = options.get(option)
        if text is not None and not plain(text, LONGEST_TITLE):
            advice = f"use at most {LONGEST_TITLE} characters, all of which can be seen"
            raise click.BadParameter(advice, param_hint=f"--{option.replace('_', '-')}")
    if why := unusable(Path(options["out"])):
        raise click.BadParameter(f"{options['out']} cannot be written to: {why}", param_hint="--out")
    if len(set(options["pick"])) < len(options["pick"]):
        raise click.BadParameter("each exercise once on a paper", param_hint="--pick")


def _in_words(topics: list[str]) -> str:
    """Each topic once: `Opening sizes, course gauge and resource lists`."""
    first, *others = dict.fromkeys(topics)
    *middle, last = [topic[:1].lower() + topic[1:] for topic in others] or [""]
    return ", ".join([first, *middle]) + (f" and {last}" if last else "")


def _date(typed: str | None) -> str:
    from datetime import date

    try:
        return (date.fromisoformat(typed) if typed else date.today()).isoformat()
    except ValueError:
        raise click.BadParameter(f"{typed} is not a date; write it as 2026-11-25", param_hint="--date") from None


def _waiting() -> None:
    click.echo("Another run is writing to this folder; waiting for it to end.", err=True)


def _prove(chosen: Any, arris_rule: str, jobs: int | None) -> tuple[Proof, ...]:
    from courseware.banks import raw_size
    from courseware.desk.progress import progress
    from courseware.desk.proving import prove_all

    with progress("Proving variants", sum(raw_size(exercise) for _, exercise in chosen)) as tell:
        return prove_all(chosen, arris_rule, jobs or _cores(), tell)


def _cores() -> int:
    return 2 if (os.cpu_count() or 1) > 1 else 1


if __name__ == "__main__":
    main()
