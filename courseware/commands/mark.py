"""`courseware mark`: what learners wrote in; marks, feedback and the class picture out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, cores, jobs_option, names_option, record_option, who_says
from courseware.commands.terminal import TERMINAL
from courseware.words import count, listed

if TYPE_CHECKING:
    from pathlib import Path

    from courseware.database.scripts import Entered
    from courseware.files.sitting_folders import SittingFolder
    from courseware.marking.mark import Marked
    from courseware.marking.marks import Decision, Query
    from courseware.settings.settings import Settings
    from courseware.workflows.mark_sitting import MarkedAndWritten, MarkOptions, TypedDecision

_MOST_TOLD = 20


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.argument("sheet", required=False, metavar="[SHEET]")
@click.option(
    "--assessor", "--by", "assessor", default=None, help="Who marks (the name you are logged in by unless given)."
)
@click.option(
    "--second",
    is_flag=True,
    help="Second marking: without SHEET makes it, with scripts as written; with SHEET takes its marks.",
)
@click.option(
    "--decide",
    multiple=True,
    nargs=4,
    metavar="WHO PART MARKS REASON",
    help="Your own mark for a part of WHO's paper (code, reference or name), with its reason; repeat it for more.",
)
@names_option
@record_option
@jobs_option
@by_centre("mark")
def mark(
    sitting: str,
    sheet: str | None,
    assessor: str | None,
    second: bool,
    decide: tuple[TypedDecision, ...],
    names: bool,
    url: str | None,
    jobs: int | None,
    settings: Settings,
) -> None:
    """Mark SITTING (its folder) from its marking sheet, or from SHEET (XLSX or CSV)."""
    from courseware.files.sitting_folders import sitting_folder
    from courseware.workflows.mark_sitting import MarkOptions

    where = sitting_folder(sitting)
    if second:
        _second(where, sheet, assessor, url, settings, names=names)
        return
    who = who_says(assessor, "--assessor")
    options = MarkOptions(assessor=who, names=names, record=url, processes=cores(jobs))
    _mark(where, sheet, decide, options)


def mark_demo(folder: Path, jobs: int | None) -> None:
    """Marks a demonstration with invented answers."""
    from courseware.files.sitting_folders import sitting_folder
    from courseware.workflows.mark_sitting import MarkOptions, fill_with_invented_answers

    where = sitting_folder(str(folder))
    fill_with_invented_answers(where)
    click.echo("Invented answers, with slips planted in them, stand in the marking sheet.")
    _mark(where, None, (), MarkOptions(assessor="an invented assessor", processes=cores(jobs)))


def _mark(where: SittingFolder, sheet: str | None, decide: tuple[TypedDecision, ...], options: MarkOptions) -> None:
    from courseware.workflows.mark_sitting import NotADecision, NothingToMark, mark_sitting

    def tell(entered: Entered, marked: Marked) -> None:
        _tell_entered(entered)
        _tell_marked(where, marked)

    try:
        done = mark_sitting(where, sheet, decide, options, TERMINAL, when_marked=tell)
    except NotADecision as wrong:
        raise click.BadParameter(str(wrong), param_hint="--decide") from None
    except NothingToMark:
        click.echo("No answers stand in the sheet yet; type them in, one row a paper, and run this again.", err=True)
        raise click.exceptions.Exit(2) from None
    _tell_written(done)
    _tell_questions(done.marked.questions)


def _second(
    where: SittingFolder, sheet: str | None, assessor: str | None, url: str | None, settings: Settings, *, names: bool
) -> None:
    """Gives out the second marker's sheet, or takes it back and compares."""
    from pathlib import Path

    from courseware.files.record_location import opened, record_url
    from courseware.workflows.second_marking import enter_second, second_lines, write_second_sheet

    with opened(record_url(url, where.path.resolve().parent), make=False) as engine:
        if sheet is None:
            path, new = write_second_sheet(engine, where)
            said = "Scripts as written for the second marker" if new else "The second marker's sheet is there already"
            click.echo(f"{said}: {path}")
            click.echo(f"When it is filled in: courseware mark {where.path} {path} --second --assessor NAME")
            return
        who = who_says(assessor, "--assessor")
        done = enter_second(engine, where, Path(sheet), settings, marker=who, names=names)
    click.echo(f"{count(done.added, 'mark')} by {who} entered.")
    for line in second_lines(done, where):
        click.echo(line)


def _tell_entered(entered: Entered) -> None:
    for change in [one for one in entered.changed if one.before][:_MOST_TOLD]:
        what = f"{change.code} {change.label or 'status'}"
        click.echo(f"Changed: {what} was `{change.before}` ({change.by}), is now `{change.after}`.", err=True)
    if empty := [left for left in entered.left if not left.before]:
        papers, who = len({left.code for left in empty}), listed(sorted({left.by for left in empty}))
        told = f"{count(len(empty), 'cell')} of {count(papers, 'paper')}, empty in this sheet, that {who} typed since."
        click.echo(f"Left as they are: {told}", err=True)
    for left in [one for one in entered.left if one.before][:_MOST_TOLD]:
        what = f"{left.code} {left.label or 'status'}"
        click.echo(
            f"Left as it is: {what} is `{left.before}` in this sheet; {left.by} typed `{left.after}` since.", err=True
        )
    for on_sheet, stands in entered.differing[:_MOST_TOLD]:
        what = f"{stands.code} {stands.label}"
        click.echo(
            f"Left as it is: {what} is decided as `{_said(on_sheet)}` in this sheet; `{_said(stands)}` came since and "
            "stands.",
            err=True,
        )


def _said(decision: Decision) -> str:
    """A decision in a few words, with its reason."""
    from courseware.text_files.faults import harmless

    marks = [] if decision.marks is None else [count(decision.marks, "mark")]
    return harmless(": ".join([*marks, *filter(None, (decision.reason, decision.comment))]))


def _tell_marked(where: SittingFolder, marked: Marked) -> None:
    absent = sum(paper.status == "absent" for paper in marked.papers)
    held = len({paper.code for paper in marked.held})
    gone = len(marked.withdrawn - {paper.code for paper in marked.papers})
    missing = len(where.sitting.papers) - len(marked.papers) - held - gone
    more = [f"{absent} absent"] if absent else []
    more += [f"{missing} not handed in"] if missing else []
    more += [f"{gone} withdrawn"] if gone else []
    more += [f"{held} held back"] if held else []
    told = f" ({', '.join(more)})" if more else ""
    click.echo(f"{count(len(marked.papers) - absent, 'script')} marked{told}.")


def _tell_questions(questions: tuple[Query, ...]) -> None:
    if not questions:
        return
    from courseware.text_files.faults import harmless

    click.echo(f"{len(questions)} to settle; until then they earn nothing:", err=True)
    for one in questions[:_MOST_TOLD]:
        part = f" {one.label}" if one.label else ""
        written = f" `{harmless(one.written)}`" if one.written else ""
        row = f"row {one.line}, " if one.line else ""  # typed on the screen: it stands in no row
        click.echo(f"  {row}{one.code}{part}{written}: {one.why}", err=True)
    if len(questions) > _MOST_TOLD:
        click.echo(f"  and {len(questions) - _MOST_TOLD} more, in to-settle.xlsx", err=True)
    click.echo(
        "Put the cell right and run this again, or give the mark yourself on the sheet `Decisions`, with its reason.",
        err=True,
    )


def _tell_written(done: MarkedAndWritten) -> None:
    from courseware.files.sitting_files import ALL_FEEDBACK, PICTURE, SETTLE

    click.echo(f"  to hand back: {done.folder / ALL_FEEDBACK}")
    click.echo(f"  for yourself: {done.folder / PICTURE}.pdf and .xlsx")
    if done.to_look_at:
        listed = f"they are listed in {done.folder / SETTLE}"
        click.echo(f"  {done.to_look_at} answers wait for your look at the working: {listed}")
