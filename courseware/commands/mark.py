"""`courseware mark`: what learners wrote in; marks, feedback and the class picture out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from pathlib import Path

    from courseware.desk.marking import Place
    from courseware.evidence.scripts import Entered
    from courseware.marking.mark import Marked
    from courseware.marking.marks import Decision, Question

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
@click.option("--names", is_flag=True, help="Show names beside codes in the class picture.")
@click.option(
    "--record", "url", default=None, metavar="URL", help="The record (record.sqlite beside the sitting unless given)."
)
@click.option("--jobs", type=click.IntRange(1, 64), default=None, help="Processes at work at once.")
def mark(sitting: str, sheet: str | None, second: bool, **options: Any) -> None:
    """Mark SITTING (its folder) from its marking sheet, or from SHEET (XLSX or CSV)."""
    from courseware.desk.marking import place_of

    place = place_of(sitting)
    if second and sheet is None:
        _blind_sheet(place)
    else:
        _mark(place, sheet, second, options)


def mark_demo(folder: Path, jobs: int | None) -> None:
    """Fills the marking sheet of a demonstration with invented answers, and marks them."""
    from courseware.desk.folder import PRIVATE, write_whole
    from courseware.desk.marking import place_of
    from courseware.desk.sitting_files import SHEET, TUTOR
    from courseware.marking.invented_scripts import invented_scripts
    from courseware.marking.marking_sheet import marking_sheet

    place = place_of(str(folder))
    filled = marking_sheet(place.sitting, invented_scripts(place.sitting))
    write_whole(folder / TUTOR / SHEET, filled, PRIVATE)
    click.echo("Invented answers, with slips planted in them, stand in the marking sheet.")
    _mark(
        place,
        None,
        False,
        {"assessor": "an invented assessor", "decide": (), "names": False, "url": None, "jobs": jobs},
    )


def _mark(place: Place, sheet: str | None, second: bool, options: dict[str, Any]) -> None:
    from datetime import UTC, datetime
    from pathlib import Path

    from courseware.desk.decisions_file import keep_decisions, kept_decisions
    from courseware.desk.folder import one_at_a_time
    from courseware.desk.marking import enter_and_mark, read_sheet
    from courseware.desk.record_place import opened, record_url
    from courseware.desk.sitting_files import SHEET
    from courseware.errands import waiting, who_says

    read = read_sheet(place, sheet)
    for note in read.notes:
        click.echo(f"Note: {note}", err=True)
    decisions = _decisions(place, options["decide"])
    if not read.scripts and not read.decisions and not decisions:
        click.echo("No answers stand in the sheet yet; type them in, one row a paper, and run this again.", err=True)
        raise click.exceptions.Exit(2)
    who, out = who_says(options["assessor"], "--assessor"), place.folder.resolve().parent
    with one_at_a_time(out, waiting), opened(record_url(options["url"], out), make=True) as engine:
        entered, marked = enter_and_mark(
            engine,
            place,
            read,
            decisions,
            assessor=who,
            role="second" if second else "first",
            source=Path(sheet).name if sheet else SHEET,
            at=datetime.now(UTC),
            kept=kept_decisions(place),
        )
        keep_decisions(engine, place, entered.pending)
        _tell_entered(entered)
        _tell_marked(place, marked)
        if second:
            _tell_second(engine, place, options["names"])
        else:
            _hand_back(engine, place, marked, options["names"], options["jobs"])
    _tell_questions(marked.questions)


def _decisions(place: Place, typed: tuple[tuple[str, str, str, str], ...]) -> list[Decision]:
    from courseware.marking.script_sheet import decision

    found: list[Decision] = []
    for code, part, marks, reason in typed:
        read = decision(code, part, marks, reason, sitting=place.sitting)
        if isinstance(read, str):
            raise click.BadParameter(read, param_hint="--decide")
        found.append(read)
    return found


def _blind_sheet(place: Place) -> None:
    """A fresh copy of the marking sheet for the second marker, with nothing of the first's in it."""
    from courseware.desk.folder import PRIVATE, write_whole
    from courseware.desk.sitting_files import SECOND_SHEET, TUTOR
    from courseware.marking.marking_sheet import marking_sheet

    path = place.folder / TUTOR / SECOND_SHEET
    if path.exists():
        click.echo(f"The second marker's sheet is there already: {path}")
    else:
        write_whole(path, marking_sheet(place.sitting), PRIVATE)
        click.echo(f"A blank sheet for the second marker: {path}")
    click.echo(f"When it is filled in: courseware mark {place.folder} {path} --second --assessor NAME")


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
    from courseware.banks.faults import harmless

    marks = [] if decision.marks is None else [f"{decision.marks} mark{'' if decision.marks == 1 else 's'}"]
    return harmless(": ".join([*marks, *filter(None, (decision.reason, decision.comment))]))


def _tell_marked(place: Place, marked: Marked) -> None:
    absent = sum(paper.status == "absent" for paper in marked.papers)
    held = len({paper.code for paper in marked.held})
    missing = len(place.sitting.papers) - len(marked.papers) - held
    count = len(marked.papers) - absent
    more = [f"{absent} absent"] if absent else []
    more += [f"{missing} not handed in"] if missing else []
    more += [f"{held} held back"] if held else []
    told = f" ({', '.join(more)})" if more else ""
    click.echo(f"{count} script{'' if count == 1 else 's'} marked{told}.")


def _tell_questions(questions: tuple[Question, ...]) -> None:
    if not questions:
        return
    from courseware.banks.faults import harmless

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


def _hand_back(engine: Any, place: Place, marked: Marked, names: bool, jobs: int | None) -> None:
    from courseware.desk.handing_back import hand_back, to_look_at
    from courseware.desk.progress import progress
    from courseware.desk.sitting_files import ALL_FEEDBACK, PICTURE, SETTLE
    from courseware.errands import cores

    with progress("Feedback sheets", len(marked.papers)) as tell:
        folder = hand_back(engine, place, marked, names=names, processes=jobs or cores(), tell=tell)
    click.echo(f"  to hand back: {folder / ALL_FEEDBACK}")
    click.echo(f"  for yourself: {folder / PICTURE}.pdf and .xlsx")
    if count := len(to_look_at(marked)):
        click.echo(f"  {count} answers wait for your look at the working: they are listed in {folder / SETTLE}")


def _tell_second(engine: Any, place: Place, names: bool) -> None:
    from courseware.desk.assuring import write_second

    for line in write_second(engine, place, names=names):
        click.echo(line)
