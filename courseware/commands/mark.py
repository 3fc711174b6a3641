"""`courseware mark`: what learners wrote in; marks, feedback and the class picture out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from courseware.commands.options import cores, jobs_option, names_option, record_option, who_says
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from pathlib import Path

    from courseware.database.scripts import Entered
    from courseware.files.sitting_folders import SittingFolder
    from courseware.marking.mark import Marked
    from courseware.marking.marks import Decision, Query

_MOST_TOLD = 20


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.argument("sheet", required=False, metavar="[SHEET]")
@click.option("--assessor", default=None, help="Who marks (the name you are logged in by unless given).")
@click.option("--second", is_flag=True, help="Blind second marking: SHEET is the second marker's own copy.")
@click.option(
    "--decide",
    multiple=True,
    nargs=4,
    metavar="CODE PART MARKS REASON",
    help="Your own mark for a part, with its reason; repeat it for more.",
)
@names_option
@record_option
@jobs_option
def mark(sitting: str, sheet: str | None, second: bool, **options: Any) -> None:
    """Mark SITTING (its folder) from its marking sheet, or from SHEET (XLSX or CSV)."""
    from courseware.files.sitting_folders import sitting_folder

    where = sitting_folder(sitting)
    if second and sheet is None:
        _blind_sheet(where)
    else:
        _mark(where, sheet, second, options)


def mark_demo(folder: Path, jobs: int | None) -> None:
    """Fills the marking sheet of a demonstration with invented answers, and marks them."""
    from courseware.files.atomic import PRIVATE, write_whole
    from courseware.files.sitting_files import SHEET, TUTOR
    from courseware.files.sitting_folders import sitting_folder
    from courseware.marking.invented_scripts import invented_scripts
    from courseware.marking.marking_sheet import marking_sheet

    where = sitting_folder(str(folder))
    filled = marking_sheet(where.sitting, invented_scripts(where.sitting))
    write_whole(folder / TUTOR / SHEET, filled, PRIVATE)
    click.echo("Invented answers, with slips planted in them, stand in the marking sheet.")
    _mark(
        where,
        None,
        False,
        {"assessor": "an invented assessor", "decide": (), "names": False, "url": None, "jobs": jobs},
    )


def _mark(where: SittingFolder, sheet: str | None, second: bool, options: dict[str, Any]) -> None:
    from datetime import UTC, datetime
    from pathlib import Path

    from courseware.files.atomic import one_at_a_time
    from courseware.files.record_location import opened, record_url
    from courseware.files.sitting_files import SHEET
    from courseware.workflows.decisions_file import keep_decisions, kept_decisions
    from courseware.workflows.marking import enter_and_mark, read_sheet

    read = read_sheet(where, sheet)
    for note in read.notes:
        TERMINAL.note(note)
    decisions = _decisions(where, options["decide"])
    if not read.scripts and not read.decisions and not decisions:
        click.echo("No answers stand in the sheet yet; type them in, one row a paper, and run this again.", err=True)
        raise click.exceptions.Exit(2)
    who, out = who_says(options["assessor"], "--assessor"), where.path.resolve().parent
    with one_at_a_time(out, TERMINAL.waiting), opened(record_url(options["url"], out), make=True) as engine:
        entered, marked = enter_and_mark(
            engine,
            where,
            read,
            decisions,
            assessor=who,
            role="second" if second else "first",
            source=Path(sheet).name if sheet else SHEET,
            at=datetime.now(UTC),
            kept=kept_decisions(where),
        )
        keep_decisions(engine, where, entered.pending)
        _tell_entered(entered)
        _tell_marked(where, marked)
        if second:
            _tell_second(engine, where, options["names"])
        else:
            _hand_back(engine, where, marked, options["names"], options["jobs"])
    _tell_questions(marked.questions)


def _decisions(where: SittingFolder, typed: tuple[tuple[str, str, str, str], ...]) -> list[Decision]:
    from courseware.marking.script_sheet import decision

    found: list[Decision] = []
    for code, part, marks, reason in typed:
        read = decision(code, part, marks, reason, sitting=where.sitting)
        if isinstance(read, str):
            raise click.BadParameter(read, param_hint="--decide")
        found.append(read)
    return found


def _blind_sheet(where: SittingFolder) -> None:
    """A fresh copy of the marking sheet for the second marker, with nothing of the first's in it."""
    from courseware.files.atomic import PRIVATE, write_whole
    from courseware.files.sitting_files import SECOND_SHEET, TUTOR
    from courseware.marking.marking_sheet import marking_sheet

    path = where.path / TUTOR / SECOND_SHEET
    if path.exists():
        click.echo(f"The second marker's sheet is there already: {path}")
    else:
        write_whole(path, marking_sheet(where.sitting), PRIVATE)
        click.echo(f"A blank sheet for the second marker: {path}")
    click.echo(f"When it is filled in: courseware mark {where.path} {path} --second --assessor NAME")


def _tell_entered(entered: Entered) -> None:
    for change in [one for one in entered.changed if one.before][:_MOST_TOLD]:
        what = f"{change.code} {change.label or 'status'}"
        click.echo(f"Changed: {what} was `{change.before}` ({change.by}), is now `{change.after}`.", err=True)
    for left in entered.left[:_MOST_TOLD]:
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
    missing = len(where.sitting.papers) - len(marked.papers) - held
    more = [f"{absent} absent"] if absent else []
    more += [f"{missing} not handed in"] if missing else []
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
        click.echo(f"  row {one.line}, {one.code}{part}{written}: {one.why}", err=True)
    if len(questions) > _MOST_TOLD:
        click.echo(f"  and {len(questions) - _MOST_TOLD} more, in to-settle.xlsx", err=True)
    click.echo(
        "Put the cell right and run this again, or give the mark yourself on the sheet `Decisions`, with its reason.",
        err=True,
    )


def _hand_back(engine: Any, where: SittingFolder, marked: Marked, names: bool, jobs: int | None) -> None:
    from courseware.files.sitting_files import ALL_FEEDBACK, PICTURE, SETTLE
    from courseware.workflows.feedback_files import hand_back, to_look_at

    with TERMINAL.progress("Feedback sheets", len(marked.papers)) as tell:
        folder = hand_back(engine, where, marked, names=names, processes=cores(jobs), tell=tell)
    click.echo(f"  to hand back: {folder / ALL_FEEDBACK}")
    click.echo(f"  for yourself: {folder / PICTURE}.pdf and .xlsx")
    if waiting := len(to_look_at(marked)):
        click.echo(f"  {waiting} answers wait for your look at the working: they are listed in {folder / SETTLE}")


def _tell_second(engine: Any, where: SittingFolder, names: bool) -> None:
    from courseware.workflows.quality import write_second

    for line in write_second(engine, where, names=names):
        click.echo(line)
