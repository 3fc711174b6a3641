"""`courseware criteria`: a centre's own criteria mapped to parts and to learners' evidence."""

from __future__ import annotations

from pathlib import Path

import click

from courseware.commands.options import (
    centre_option,
    date_option,
    day,
    folder_of,
    names_option,
    out_option,
    record_option,
    settings_of,
)
from courseware.commands.terminal import TERMINAL
from courseware.words import count


@click.command()
@click.argument("named", nargs=-1, metavar="[FILE] [SITTING]...")
@click.option("--bank", "banks", multiple=True, metavar="BANK", help="A bank of your own that FILE names; repeatable.")
@click.option("--portfolio", is_flag=True, help="For each learner an index of evidence, in place of the map.")
@date_option
@names_option
@record_option
@out_option
@centre_option
def criteria(
    named: tuple[str, ...],
    banks: tuple[str, ...],
    portfolio: bool,
    date: str | None,
    names: bool,
    url: str | None,
    out: str,
    centre: str | None,
) -> None:
    """Map your centre's own criteria to the parts that serve them and to learners' evidence.

    They stand in FILE (YAML), else in the centre's settings. SITTINGs are codes or folders; all in the record if none
    is named.
    """
    from contextlib import nullcontext

    from courseware.files.record_location import opened, record_file, record_url
    from courseware.workflows.criteria import map_criteria
    from courseware.workflows.portfolio import write_portfolios
    from courseware.workflows.quality import sittings_meant

    own, sittings = (named[0], named[1:]) if named and _is_file(named[0]) else (None, named)
    settings = settings_of(centre if own is None else own, "criteria")
    folder, on = folder_of(out), day(date)
    at = record_url(url, folder)
    there = record_file(at)
    if portfolio:
        with opened(at, make=False) as engine:
            codes = sittings_meant(engine, sittings)
            files = write_portfolios(engine, codes, settings, banks, TERMINAL, names=names, out=folder, day=on)
        click.echo(f"{count(len(files) // 2, 'portfolio index', 'portfolio indexes')} in {folder}:")
        for made in files:
            click.echo(f"  {made}")
        return
    missing = not sittings and there is not None and not there.exists()  # then criteria against parts alone
    with nullcontext() if missing else opened(at, make=False) as engine:
        codes = sittings_meant(engine, sittings) if engine is not None else ()
        found, files = map_criteria(engine, codes, settings, banks, names=names, out=folder, day=on)
    click.echo(f"{count(len(found.rows), 'criterion', 'criteria')}, {count(len(found.people), 'learner')}:")
    for made in files:
        click.echo(f"  {made}")
    for row in found.rows:
        if row.gap:
            click.echo(f"Not secure yet, {row.criterion.code}: {row.gap}.")


def _is_file(named: str) -> bool:
    """Whether the first thing named is a file of criteria rather than a sitting: its code, folder or sitting.json."""
    path = Path(named)
    return path.suffix in {".yaml", ".yml"} or (path.is_file() and path.suffix != ".json")
