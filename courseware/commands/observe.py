"""`courseware observe`: what was measured and judged at a job, into the record."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, folder_of, out_option, printable, record_option, who_says
from courseware.commands.options import day as read_day
from courseware.words import count

if TYPE_CHECKING:
    from courseware.database.observations import KeptObservation
    from courseware.settings.settings import Settings


@click.command()
@click.argument("job", metavar="JOB")
@click.argument("sheets", nargs=-1, metavar="[SHEET]...")
@click.option("--learner", default=None, help="Whose work it is, where SHEET does not say: code, reference or name.")
@click.option("--assessor", "--by", "assessor", default=None, help="Who observed it, where SHEET does not say.")
@click.option("--date", default=None, help="The day of the work, where SHEET does not say, as 2026-11-25.")
@click.option("--copy-photos", is_flag=True, help="Copy the photographs; else only their names and hashes are kept.")
@click.option("--withdraw", is_flag=True, help="Withdraw what was entered of --learner (on --date), for --reason.")
@click.option("--reason", default="", help="Why it is withdrawn.")
@record_option
@out_option
@by_centre("observe")
def observe(
    job: str,
    sheets: tuple[str, ...],
    learner: str | None,
    assessor: str | None,
    date: str | None,
    copy_photos: bool,
    withdraw: bool,
    reason: str,
    url: str | None,
    out: str,
    settings: Settings,
) -> None:
    """Enter filled-in observation sheets of JOB: each SHEET is one learner's `observation-sheet.xlsx`.

    Pass or fail is worked out by the job's tolerance profile.
    """
    from courseware.files.record_location import opened, record_url
    from courseware.workflows.observe import Typed, observe_sheets, withdraw_observed

    on = read_day(date) if date else ""
    folder = folder_of(out)
    if withdraw:
        if sheets or not learner:
            raise click.UsageError("--withdraw goes with --learner and --reason, and without a SHEET.")
        why, by = printable(reason, "--reason") or "", who_says(assessor, "--assessor")
        with opened(record_url(url, folder), make=False) as engine:
            gone = withdraw_observed(engine, job, learner, on, reason=why, by=by)
        click.echo(f"Withdrawn: {gone.code}, {gone.title}, {gone.day}. The history keeps it.")
        return
    if not sheets:
        raise click.UsageError("Name the filled-in sheets; `--withdraw` takes back what was entered by mistake.")
    if learner is not None and len(sheets) > 1:
        raise click.UsageError("--learner goes with one SHEET; of several, each says whose it is.")
    typed = Typed(learner=learner or "", assessor=printable(assessor, "--assessor") or "", day=on)
    copies = folder / "photographs" if copy_photos else None
    with opened(record_url(url, folder), make=False) as engine:
        for kept in observe_sheets(engine, job, sheets, settings, typed=typed, copies=copies):
            _tell(kept, copies)


def _tell(kept: KeptObservation, copies: Path | None) -> None:
    from courseware.jobs.observation import VERDICTS

    found = kept.observation
    failed = [result.what for result in found.results if result.verdict == "fail"]
    still_open = [result.what for result in found.results if result.verdict == "open"]
    said = "Entered" if kept.before is None else "Put right" if kept.is_new else "There already"
    click.echo(f"{said}: {found.code}, {found.title}, {found.day}: {VERDICTS[found.verdict]}.")
    for lines, says in ((failed, "not yet"), (still_open, "not filled in")):
        if lines:
            click.echo(f"  {says}: {'; '.join(lines)}")
    if found.photos:
        where = f"copied to {copies}" if copies else "named with their hashes, not copied"
        click.echo(f"  {count(len(found.photos), 'photograph')}, {where}")
