"""`courseware criteria`: a centre's own criteria mapped to parts and to learners' evidence."""

from __future__ import annotations

import click

from courseware.commands.options import day, folder_of, names_option, out_option, record_option


@click.command()
@click.argument("file", metavar="FILE")
@click.argument("sittings", nargs=-1, metavar="[SITTING]...")
@click.option("--bank", "banks", multiple=True, metavar="BANK", help="A bank of your own that FILE names; repeatable.")
@names_option
@record_option
@out_option
def criteria(
    file: str, sittings: tuple[str, ...], banks: tuple[str, ...], names: bool, url: str | None, out: str
) -> None:
    """Map your centre's own criteria (FILE, YAML) to the parts that serve them and to learners' evidence.

    SITTINGs are codes or folders; all in the record if none is named.
    """
    from contextlib import nullcontext
    from pathlib import Path

    from courseware.files.record_location import opened, record_file, record_url
    from courseware.workflows.criteria import map_criteria
    from courseware.workflows.quality import sittings_meant

    folder = folder_of(out)
    at = record_url(url, folder)
    there = record_file(at)
    missing = not sittings and there is not None and not there.exists()  # then criteria against parts alone
    with nullcontext() if missing else opened(at, make=False) as engine:
        codes = sittings_meant(engine, sittings) if engine is not None else ()
        found, files = map_criteria(engine, codes, Path(file), banks, names=names, out=folder, day=day(None))
    click.echo(f"{len(found.rows)} criteria, {len(found.people)} learners:")
    for made in files:
        click.echo(f"  {made}")
    for row in found.rows:
        if row.gap:
            click.echo(f"No evidence yet for {row.criterion.code}: {row.gap}.")
