"""`courseware progress`: one sheet of what a class practised at home, from the files that its learners saved."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, day, folder_of, out_option, record_option
from courseware.words import count

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...", type=click.Path(exists=True, dir_okay=False))
@record_option
@out_option
@by_centre("progress")
def progress(files: tuple[str, ...], url: str | None, out: str, settings: Settings) -> None:
    """Make one sheet (PDF and XLSX) of what a class practised, from the FILEs that learners saved on the practice page.

    Days, exercises that are secure, slips that still come; in order of names, without ranks. A file that was changed
    since the page saved it is marked. What was made is noted in the record, where there is one.
    """
    from courseware.files.record_location import record_url, where_there
    from courseware.text_files.faults import visible
    from courseware.workflows.progress import class_progress

    folder = folder_of(out)
    at = record_url(url, folder)
    record = at if url else where_there(at)
    found = class_progress([(file, _bytes(file)) for file in files], settings.name, folder, day(None), record)
    for note in found.notes:
        click.echo(visible(note))
    click.echo(f"{count(len(found.learners), 'learner')}:")
    for made in found.files:
        click.echo(f"  {made}")


def _bytes(file: str) -> bytes:
    from courseware.practice.saved_file import MOST_BYTES

    with Path(file).open("rb") as opened:
        return opened.read(MOST_BYTES + 1)
