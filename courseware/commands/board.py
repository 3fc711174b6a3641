"""`courseware board`: pages for the whiteboard, of banks or of what a marked sitting is to be taught again."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, cores, folder_of, jobs_option, printable, record_option
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from courseware.practice.board import Board
    from courseware.settings.settings import Settings


@click.command()
@click.argument("named", nargs=-1, required=True, metavar="BANK... | SITTING")
@click.option("--pick", multiple=True, metavar="EXERCISE", help="Only this exercise; repeat it for more.")
@click.option("--seed", default=None, help="A seed to choose the figures by: the same seed, the same pages.")
@click.option("--out", default="output/board.pdf", show_default=True, metavar="FILE", help="The file to write.")
@record_option
@by_centre("banks", arris_rule=True)
@jobs_option
def board(
    named: tuple[str, ...],
    pick: tuple[str, ...],
    seed: str | None,
    out: str,
    url: str | None,
    settings: Settings,
    jobs: int | None,
) -> None:
    """Make pages for the whiteboard: a question, its drawing, its working a line at a time, slips to talk about.

    Of BANKs (files, or shipped topics by name), with fresh figures each time; or of SITTING, a marked sitting's folder:
    the questions that its class picture says to start with.
    """
    file = Path(out)
    if file.is_dir():
        raise click.BadParameter(f"{file} is a folder; name a file in it", param_hint="--out")
    folder_of(str(file.parent))
    from courseware.files.sitting_files import SITTING

    sitting = next((name for name in named if Path(name).name == SITTING or (Path(name) / SITTING).is_file()), None)
    if sitting is not None and (len(named) > 1 or any(map(_typed, ("pick", "seed", "centre", "arris_rule")))):
        raise click.UsageError("SITTING brings its own exercises and rules: name it alone, with --record and --out.")
    made = _of_banks(named, pick, seed, settings, jobs) if sitting is None else _of_sitting(sitting, url, jobs)
    from courseware.workflows.board import write_board

    pages = write_board(file, made)
    click.echo(f"{count(pages, 'page')} for the whiteboard in {file}")


def _of_banks(
    named: tuple[str, ...], pick: tuple[str, ...], seed: str | None, settings: Settings, jobs: int | None
) -> Board:
    from secrets import token_hex

    from courseware.workflows.board import board_of_banks

    chosen = printable(seed, "--seed") or token_hex(32)
    return board_of_banks(named, tuple(dict.fromkeys(pick)), chosen, settings, cores(jobs), TERMINAL)


def _of_sitting(named: str, url: str | None, jobs: int | None) -> Board:
    from courseware.files.record_location import opened, record_url
    from courseware.files.sitting_folders import sitting_folder
    from courseware.workflows.board import board_of_sitting

    where = sitting_folder(named)
    with opened(record_url(url, where.path.resolve().parent), make=False) as engine:
        return board_of_sitting(engine, where, cores(jobs), TERMINAL)


def _typed(option: str) -> bool:
    """Whether an option was given on the command line."""
    return click.get_current_context().get_parameter_source(option) is click.core.ParameterSource.COMMANDLINE
