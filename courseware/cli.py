"""The commands. Each reads its options, calls the desk and prints what came of it."""

from __future__ import annotations

import sys
from typing import Any

import click

from courseware import __version__
from courseware.commands.assure import audit, criteria, sample
from courseware.commands.by_level import groups_by_level, issue_by_level
from courseware.commands.mark import mark
from courseware.commands.practise import practise
from courseware.commands.record import record
from courseware.errands import (
    FAILED,
    check_out,
    cores,
    day,
    group_of,
    issue_like,
    issue_sitting,
    issue_worksheet,
    prove_chosen,
    retake,
    waiting,
    write_jobs,
)

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
    """Turns whatever goes wrong into one plain message and an exit code."""

    def main(self, *args: Any, **more: Any) -> Any:
        try:
            return super().main(*args, **more)
        except (SystemExit, KeyboardInterrupt, click.ClickException, click.exceptions.Exit, click.Abort):
            raise
        except BaseException as error:  # the page engine has one that is no Exception
            from courseware.desk.messages import FAULT_OF_PROGRAM, explain, keep_details

            message, code = explain(error)
            click.echo(message or keep_details(error), err=True)
            sys.exit(code or FAULT_OF_PROGRAM)


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="courseware")
def main() -> None:
    """Bricklaying papers and keys from question banks: proved, different for each learner, equally hard."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def _typed(option: str) -> bool:
    """Whether an option was given on the command line, be it with its default."""
    return click.get_current_context().get_parameter_source(option) is click.core.ParameterSource.COMMANDLINE


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
    proofs = prove_chosen(chosen, arris_rule, jobs)
    report_proofs(read, proofs)
    failures = list(first_failures(proofs))
    for exercise, failure in failures:
        tell_failure(exercise, failure)
    if failures:
        raise click.exceptions.Exit(FAILED)


@main.command()
@click.argument("banks", nargs=-1, metavar="[BANK]...")
@click.option("--group", metavar="FILE", default=None, help="The class list: CSV or XLSX with a name on each row.")
@click.option("--group-name", default=None, help="The name of the group (from the class list's file unless given).")
@click.option("--learners", type=click.IntRange(1, 1000), default=None, help="Instead: so many numbered papers.")
@click.option("--title", default=None, help="The title of the papers (the topics unless given).")
@click.option("--date", default=None, help="The date on the papers, as 2026-11-25 (today unless given).")
@click.option("--level", type=click.IntRange(1, 3), default=None, help="Only exercises of this level.")
@click.option(
    "--levels", is_flag=True, help="Each learner's level by the class list's column Level: a sitting a level."
)
@click.option("--exercises", type=click.IntRange(1, 40), default=None, help="How many exercises a paper has.")
@click.option("--pick", multiple=True, metavar="NAME", help="Take this exercise; repeat it for more.")
@click.option(
    "--retake",
    "again_of",
    metavar="SITTING",
    default=None,
    help="Instead of BANKs: the exercises of SITTING again, never a variant that the learner has had.",
)
@click.option(
    "--for", "learners_named", multiple=True, metavar="WHO", help="Of a retake: only this learner (code or name)."
)
@click.option(
    "--like", metavar="SITTING", default=None, help="Instead of BANKs: the exercises of SITTING, for another group."
)
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
    again_of: str | None,
    learners_named: tuple[str, ...],
    like: str | None,
    levels: bool,
    **options: Any,
) -> None:
    """Make a paper and a key for each learner from BANKs (files, or shipped topics by name)."""
    if levels and (group is None or learners or again_of or like or options["level"] or options["pick"]):
        raise click.UsageError("--levels goes with BANKs and --group, and without --level and --pick.")
    if like is not None and _typed("arris_rule"):
        raise click.UsageError("--like takes the arris rule from SITTING too: leave --arris-rule out.")
    if again_of is not None:
        if banks or group or learners or like or options["level"] or options["exercises"] or options["pick"]:
            raise click.UsageError("--retake takes exercises and learners from SITTING: name neither banks nor group.")
        retake(again_of, learners_named, day(date), options)
        return
    if learners_named:
        raise click.UsageError("--for names learners of a retake: give --retake too.")
    if like is not None and (banks or options["level"] or options["exercises"] or options["pick"]):
        raise click.UsageError("--like takes the exercises from SITTING: name neither banks nor exercises.")
    if not banks and like is None:
        raise click.UsageError("Name a bank: a file, or a shipped topic (`courseware topics` lists them).")
    if options["pick"] and (options["level"] or options["exercises"]):
        raise click.UsageError("--pick names the exercises: leave --level and --exercises out.")
    if (group is None) == (learners is None):
        raise click.UsageError("Give either --group with a class list, or --learners with a number.")
    if levels and group is not None:
        issue_by_level(banks, groups_by_level(group, group_name), day(date), options)
        return
    made = group_of(group, learners, group_name)
    if like is not None:
        issue_like(like, made, day(date), {**options, "group_name": group_name})
        return
    issue_sitting(banks, made, day(date), {**options, "group_name": group_name})


@main.command()
@_jobs_option
@click.option("--out", default="output", show_default=True, help="The folder that the sitting's folder is made in.")
@click.pass_context
def demo(ctx: click.Context, jobs: int | None, out: str) -> None:
    """Everything for an invented group of eight: papers, invented answers marked, the practice page, a job."""
    import secrets

    from courseware.commands.mark import mark_demo
    from courseware.desk.jobs import shipped_jobs
    from courseware.desk.shelf import shipped_banks
    from courseware.papers.invented import invented_group

    options: dict[str, Any] = {"title": "Setting out", "out": out, "jobs": jobs, "arris_rule": "outline", "seed": None}
    options |= {"level": None, "exercises": None, "pick": (), "group_name": None}
    banks = tuple(path.stem for path in shipped_banks())
    folder = issue_sitting(banks, invented_group(8, secrets.randbits(64)), day(None), options)
    mark_demo(folder, jobs)
    ctx.invoke(practise, banks=banks, out=str(folder.parent / "practice.html"), jobs=jobs)
    write_jobs((next(iter(shipped_jobs())),), day(None), out, "outline")


@main.command()
@click.argument("task_files", nargs=-1, required=True, metavar="JOB...")
@click.option(
    "--group", metavar="FILE", default=None, help="Worksheets on the job for the learners of this class list."
)
@click.option("--group-name", default=None, help="The name of the group (from the class list's file unless given).")
@click.option("--learners", type=click.IntRange(1, 1000), default=None, help="Or so many numbered worksheets.")
@click.option("--date", default=None, help="The date on the sheets, as 2026-11-25 (today unless given).")
@click.option("--out", default="output", show_default=True, help="The folder that the job's folder is made in.")
@_rule_option
@_jobs_option
def job(
    task_files: tuple[str, ...],
    group: str | None,
    group_name: str | None,
    learners: int | None,
    date: str | None,
    out: str,
    arris_rule: str,
    jobs: int | None,
) -> None:
    """Make the sheets of a practical task: job sheet, templates at true size, order, prompts, observation sheet."""
    if group is not None and learners is not None:
        raise click.UsageError("Give either --group with a class list, or --learners with a number.")
    tasks = write_jobs(task_files, day(date), out, arris_rule)
    if group is not None or learners is not None:
        made = group_of(group, learners, group_name)
        for task in tasks:
            if len(made.learners) != task.shape.learners:
                told = f"the job is for {task.shape.learners}, worksheets are for {len(made.learners)}"
                click.echo(f"Note: {task.shape.job}: {told}; the order and the bays are the job's.", err=True)
            issue_worksheet(task, made, day(date), out, arris_rule, jobs)


@main.command()
@click.argument("sitting", metavar="SITTING")
@click.option("--out", default="output", show_default=True, help="The folder that the new folder is made in.")
@_jobs_option
def again(sitting: str, out: str, jobs: int | None) -> None:
    """Make the PDFs of SITTING (its folder or sitting.json) again from the record alone, byte for byte."""
    from pathlib import Path

    from courseware.desk.issuing import again, record_text
    from courseware.desk.progress import progress
    from courseware.desk.sitting_files import RECORD
    from courseware.papers.record import read_record
    from courseware.printing.versions import versions, what_differs

    check_out(out)
    record = record_text(Path(sitting) / RECORD if Path(sitting).is_dir() else Path(sitting))
    issued = read_record(record)
    with progress("Printing", 2 * len(issued.papers)) as tell:
        folder = again(record, issued, Path(out), jobs or cores(), tell, waiting)
    click.echo(f"Made again in {folder}")
    if differs := what_differs(issued.made_with, versions()):
        click.echo(f"Note: {differs}.", err=True)


for command in (mark, sample, audit, criteria, record, practise):
    main.add_command(command)


if __name__ == "__main__":
    main()
