"""`courseware practise`: one page for a phone, or a printed booklet, of variants that no sitting is dealt."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import (
    by_centre,
    cores,
    folder_of,
    jobs_option,
    level_option,
    second_language_option,
)
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from courseware.glossary.sheets import Glossary
    from courseware.settings.settings import Settings
    from courseware.workflows.practise import ToPractise


@click.command()
@click.argument("banks", nargs=-1, metavar="[BANK]...")
@level_option
@click.option("--job", default=None, metavar="JOB", help="Figures near those of this job: a job's file or short name.")
@click.option("--out", default=None, metavar="FILE", help="The file to write [default: output/practice.html, or .pdf].")
@click.option(
    "--print",
    "printed",
    is_flag=True,
    help="Instead of the page: a booklet to print, answers at the back; with --site: beside it, and linked.",
)
@click.option(
    "--site",
    default=None,
    metavar="FOLDER",
    help="Instead of one file: the page as a folder of files, for a web server.",
)
@second_language_option
@by_centre("practice", arris_rule=True)
@jobs_option
def practise(
    banks: tuple[str, ...],
    level: int | None,
    job: str | None,
    out: str | None,
    printed: bool,
    site: str | None,
    second_language: str | None,
    settings: Settings,
    jobs: int | None,
) -> None:
    """Make a page to practise BANKs at home (files, or shipped topics by name; all of those if none): one file."""
    file = Path(out or ("output/practice.pdf" if printed else "output/practice.html"))
    if file.is_dir():
        raise click.BadParameter(f"{file} is a folder; name a file in it", param_hint="--out")
    if printed and site is None and second_language:
        raise click.UsageError("--second-language goes with the page: the booklet has no words beside its questions.")
    if site is not None and out is not None:
        raise click.UsageError("--site FOLDER goes without --out.")
    folder_of(site or str(file.parent))
    from courseware.files.bank_files import shipped_banks
    from courseware.workflows.glossary import find_glossary
    from courseware.workflows.practise import to_practise, write_booklet

    glossary = find_glossary(None, second_language, TERMINAL)  # a faulty table is told before any work
    named = banks if banks or job is not None else tuple(path.stem for path in shipped_banks())
    found = to_practise(named, job, level, settings, cores(jobs), TERMINAL)
    if printed and site is None:
        write_booklet(file, found)
        click.echo(f"A booklet to print in {file}")
        return
    if site is not None:
        from courseware.workflows.practise import write_site

        kinds, size = write_site(Path(site), found, glossary, TERMINAL, booklet=printed)
        click.echo(
            f"{count(kinds, 'kind')} of question to practise, {size / 1e6:.1f} MB, in {site}: serve it over https."
        )
        return
    tell_page(file, found, glossary)


def tell_page(file: Path, found: ToPractise, glossary: Glossary) -> None:
    """Writes the practice page and says what is on it."""
    from courseware.workflows.practise import write_page

    kinds, size = write_page(file, found, glossary, TERMINAL)
    told = f"{size / 1e6:.1f} MB" if size >= 100_000 else f"{size // 1000} kB"
    click.echo(f"{count(kinds, 'kind')} of question to practise, {told}, in {file}")
