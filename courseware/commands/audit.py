"""`courseware audit`: all that the record has of one paper, bound into one PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, date_option, day, folder_of, names_option, out_option, record_option

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@click.argument("code", metavar="CODE")
@date_option
@names_option
@record_option
@out_option
@by_centre("audit")
def audit(code: str, date: str | None, names: bool, url: str | None, out: str, settings: Settings) -> None:
    """Bind all that the record has of the paper CODE into one PDF: paper, key, script, marks and their history."""
    from courseware.files.record_location import opened, record_url
    from courseware.workflows.audit_copy import audit_copy

    folder = folder_of(out)
    with opened(record_url(url, folder), make=False) as engine:
        file = audit_copy(engine, code, settings, names=names, out=folder, day=day(date))
    click.echo(f"Audit copy: {file}")
