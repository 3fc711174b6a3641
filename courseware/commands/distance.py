"""`courseware distance`: how far a class has come from the start of a course to its end."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, date_option, day, folder_of, out_option, record_option
from courseware.words import count

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@click.argument("sittings", nargs=-1, required=True, metavar="SITTING SITTING...")
@date_option
@record_option
@out_option
@by_centre("sample")
def distance(sittings: tuple[str, ...], date: str | None, url: str | None, out: str, settings: Settings) -> None:
    """Set marked SITTINGs of the same exercises side by side: what was got and what went wrong, then and now.

    SITTINGs are codes or folders, two of the same exercises each: diagnostics at the start and at the end of a course.
    """
    from courseware.files.record_location import opened, record_url
    from courseware.workflows.distance import travelled
    from courseware.workflows.quality import sittings_meant

    folder = folder_of(out)
    with opened(record_url(url, folder), make=False) as engine:
        made = travelled(engine, sittings_meant(engine, sittings), settings, out=folder, day=day(date))
    for one in made.found:
        click.echo(f"{one.start.title}: {count(one.both, 'learner')} wrote both.")
    for file in made.files:
        click.echo(f"  {file}")
