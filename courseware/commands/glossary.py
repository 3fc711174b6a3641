"""`courseware glossary`: the trade's words with a picture each, or the card of its rules."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import by_centre, folder_of, second_language_option
from courseware.commands.terminal import TERMINAL
from courseware.words import count

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@click.argument("words", required=False, metavar="[WORDS]")
@click.option("--card", is_flag=True, help="Instead: the rules of the shipped topics on one sheet, to fold to A5.")
@second_language_option
@click.option(
    "--out", default=None, metavar="FILE", help="The file to write [default: output/glossary.pdf, or card.pdf]."
)
@by_centre("card", arris_rule=True)
def glossary(words: str | None, card: bool, second_language: str | None, out: str | None, settings: Settings) -> None:
    """Print the trade's words, each with a picture and a sentence: those of WORDS (YAML), or the shipped ones."""
    if card and (words or second_language):
        raise click.UsageError("--card has the rules alone: leave WORDS and --second-language out.")
    file = Path(out or ("output/card.pdf" if card else "output/glossary.pdf"))
    if file.is_dir():
        raise click.BadParameter(f"{file} is a folder; name a file in it", param_hint="--out")
    folder_of(str(file.parent))
    from courseware.workflows.glossary import find_glossary, write_card, write_glossary

    if card:
        write_card(file, settings)
        click.echo(f"A card to print on both sides and fold in {file}")
        return
    made = write_glossary(file, find_glossary(words, second_language, TERMINAL), TERMINAL)
    click.echo(f"{count(made, 'word')} with their pictures in {file}")
