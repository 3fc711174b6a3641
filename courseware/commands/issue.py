"""`courseware issue`: a paper and a key for each learner."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from courseware.commands.options import (
    approved_option,
    by_centre,
    by_option,
    cores,
    date_option,
    day,
    due_option,
    folder_of,
    group_options,
    jobs_option,
    level_option,
    out_option,
    printable,
    record_option,
    who_says,
    word_option,
)
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from courseware.papers.sheet_format import SheetFormat
    from courseware.workflows.issue import Issued, IssueOptions


@click.command()
@click.argument("banks", nargs=-1, metavar="[BANK]...")
@group_options
@click.option("--title", default=None, help="The title of the papers (the topics unless given).")
@date_option
@due_option
@level_option
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
@click.option(
    "--diagnostic", is_flag=True, help="A short paper a level, the same exercises whenever it is asked: see `distance`."
)
@click.option(
    "--week",
    type=click.IntRange(1, 60),
    default=None,
    help="Instead of BANKs: what your scheme of work has in this week.",
)
@click.option(
    "--plan",
    "table",
    metavar="FILE",
    default=None,
    help="The scheme of work (scheme-of-work.xlsx in --out unless given).",
)
@out_option
@click.option("--for-approval", is_flag=True, help="Deal the papers for an assurer to look through; print none yet.")
@click.option("--approved", metavar="FOLDER", default=None, help="Instead of BANKs: print what was dealt for approval.")
@approved_option
@click.option("--seed", default=None, help="A seed to deal from again (guessable: not for a formal assessment).")
@click.option(
    "--format", "sheets", metavar="WORDS", default="", help="How the sheets are set, as `large-18`: see the manual."
)
@click.option("--roomy", is_flag=True, help="An exercise a page, as `--format roomy` has it.")
@word_option
@by_option
@record_option
@by_centre("sitting", arris_rule=True)
@jobs_option
def issue(
    banks: tuple[str, ...],
    group: str | None,
    group_name: str | None,
    learners: int | None,
    date: str | None,
    again_of: str | None,
    learners_named: tuple[str, ...],
    like: str | None,
    levels: bool,
    diagnostic: bool,
    week: int | None,
    table: str | None,
    approved: str | None,
    **asked: Any,
) -> None:
    """Make a paper and a key for each learner from BANKs (files, or shipped topics by name)."""
    narrowed = bool(asked["level"] or asked["exercises"] or asked["pick"])
    if approved is not None:
        _print_approved(approved, asked, date, other=bool(banks or group or learners or again_of or like or narrowed))
        return
    if levels and (group is None or learners or again_of or like or asked["level"] or asked["pick"]):
        raise click.UsageError("--levels goes with BANKs and --group, and without --level and --pick.")
    if like is not None and _typed("arris_rule"):
        raise click.UsageError("--like takes the arris rule from SITTING too: leave --arris-rule out.")
    if again_of is not None and (banks or group or learners or like or narrowed):
        raise click.UsageError("--retake takes exercises and learners from SITTING: name neither banks nor group.")
    if learners_named and again_of is None:
        raise click.UsageError("--for names learners of a retake: give --retake too.")
    if like is not None and (banks or narrowed):
        raise click.UsageError("--like takes the exercises from SITTING: name neither banks nor exercises.")
    if diagnostic and (levels or again_of or like or week is not None or asked["level"] or asked["pick"]):
        raise click.UsageError("--diagnostic goes with BANKs alone: it makes papers of every level that they have.")
    if week is not None and (banks or like or again_of or levels or narrowed):
        raise click.UsageError("--week takes banks, levels and exercises from your scheme of work: name none of them.")
    if table is not None and week is None:
        raise click.UsageError("--plan goes with --week.")
    if not banks and like is None and again_of is None and week is None:
        raise click.UsageError("Name a bank: a file, or a shipped topic (`courseware topics` lists them).")
    if asked["pick"] and (asked["level"] or asked["exercises"]):
        raise click.UsageError("--pick names the exercises: leave --level and --exercises out.")
    if again_of is None and (group is None) == (learners is None):
        raise click.UsageError("Give either --group with a class list, or --learners with a number.")
    from courseware.workflows import issue as workflow

    printable(group_name, "--group-name")
    on = day(date)
    options = options_of(asked, on)
    list_file = Path(group) if group is not None else None
    if again_of is not None:
        tell_issued(workflow.retake(again_of, learners_named, on, options, TERMINAL))
    elif levels and list_file is not None:
        groups = workflow.groups_by_level(list_file, group_name, TERMINAL)
        for issued in workflow.issue_by_level(banks, groups, on, options, TERMINAL):
            tell_issued(issued)
    else:
        made = workflow.group_of(list_file, learners or 1, group_name, TERMINAL)
        if diagnostic:
            for issued in workflow.issue_diagnostic(banks, made, on, options, TERMINAL):
                tell_issued(issued)
        elif week is not None:
            from courseware.workflows.scheme import PLAN, lessons_of_week

            lessons = lessons_of_week(week, Path(table) if table else options.out / f"{PLAN}.xlsx")
            tell_issued(workflow.issue_week(lessons, made, on, options, TERMINAL))
        elif like is not None:
            tell_issued(workflow.issue_like(like, made, on, options, TERMINAL))
        else:
            tell_issued(workflow.issue_sitting(banks, made, on, options, TERMINAL))


def _print_approved(folder: str, asked: dict[str, Any], date: str | None, *, other: bool) -> None:
    """Prints what was dealt for approval; `other`: whether anything was named that is dealt already."""
    if other or asked["for_approval"]:
        raise click.UsageError("--approved prints what was dealt: name neither banks, group nor exercises.")
    if not asked["approved_by"]:
        raise click.UsageError("--approved goes with --approved-by, who has approved it.")
    from courseware.workflows.print_approved import issue_approved

    tell_issued(issue_approved(Path(folder), options_of(asked, day(date)), TERMINAL))


def options_of(asked: dict[str, Any], on: str) -> IssueOptions:
    """What was asked of a sitting; texts that no page can hold and a folder that cannot be written to are refused."""
    from courseware.workflows.issue import IssueOptions

    if len(set(asked["pick"])) < len(asked["pick"]):
        raise click.BadParameter("each exercise once on a paper", param_hint="--pick")
    return IssueOptions(
        title=printable(asked["title"], "--title"),
        seed=printable(asked["seed"], "--seed"),
        out=folder_of(asked["out"]),
        settings=asked["settings"],
        processes=cores(asked["jobs"]),
        level=asked["level"],
        exercises=asked["exercises"],
        picked=asked["pick"],
        for_approval=asked["for_approval"],
        approved_by=who_says(asked["approved_by"], "--approved-by") if asked["approved_by"] else "",
        due=_due(asked.get("due"), on),
        by=who_says(asked.get("by"), "--by"),
        record=asked.get("url"),
        word=asked["word"],
        sheets=replace(_format(asked["sheets"]), roomy=True) if asked["roomy"] else _format(asked["sheets"]),
    )


def _due(typed: str | None, on: str) -> str:
    """The day typed, not before the sitting's own."""
    due = day(typed, "--due") if typed else ""
    if due and due < on:
        raise click.BadParameter(f"{due} is before the sitting, on {on}", param_hint="--due")
    return due


def _format(words: str) -> SheetFormat:
    from courseware.papers.sheet_format import FormatUnknown, read_format

    try:
        return read_format(words)
    except FormatUnknown as unknown:
        raise click.BadParameter(str(unknown), param_hint="--format") from None


def _to_type(path: Path) -> str:
    """A path as it is typed in a terminal."""
    return f'"{path}"' if " " in str(path) else str(path)


def tell_issued(issued: Issued) -> None:
    """Says where everything is."""
    from courseware.files.sitting_files import ALL_KEYS, ALL_PAPERS, APPROVED, SHEET

    if not issued.printed:
        click.echo(
            f"{count(issued.papers, 'paper')} dealt, none printed: {issued.folder / APPROVED} is for the assurer"
        )
        out = issued.folder.parent
        where = "" if out == Path("output") else f" --out {_to_type(out)}"
        click.echo(f"  then: courseware issue --approved {_to_type(issued.folder)} --approved-by NAME{where}")
        return
    if issued.resumed:
        click.echo("Went on from a run that had been stopped.")
    keys = "key" if issued.papers == 1 else "keys"
    click.echo(f"{count(issued.papers, 'paper')} and {keys} in {issued.folder}")
    if issued.arris_rule:
        click.echo(f"  The arris rule is `{issued.arris_rule}`; centres differ: see --arris-rule.")
    click.echo(f"  to hand out:  {issued.folder / ALL_PAPERS}")
    click.echo(f"  for yourself: {issued.folder / ALL_KEYS} and {SHEET}")


def _typed(option: str) -> bool:
    """Whether an option was given on the command line, be it with its default."""
    return click.get_current_context().get_parameter_source(option) is click.core.ParameterSource.COMMANDLINE
