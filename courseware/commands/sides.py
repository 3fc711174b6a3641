"""`courseware sides`: how many sides a sitting takes, how white they are, how many drawings its papers have."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

import click

from courseware.commands.options import cores, jobs_option
from courseware.commands.terminal import TERMINAL

if TYPE_CHECKING:
    from courseware.workflows.sides import KindCounted

_HEADS = ("", "files", "sides each", "white", "drawings a paper", "sides in all", "sheets of paper")
_BETWEEN = "  "


@click.command()
@click.argument("sitting", metavar="SITTING")
@jobs_option
def sides(sitting: str, jobs: int | None) -> None:
    """Count what SITTING (its folder) takes to print: sides, white space, drawings a paper, sheets of paper.

    Sheets are printed on both sides, each file on its own. White is what has no ink from margin to margin, in rows of
    1 mm; the room in a box to work in is none, since its sides are drawn.
    """
    from courseware.files.sitting_folders import sitting_folder
    from courseware.workflows.sides import count_sides

    counted = count_sides(sitting_folder(sitting), cores(jobs), TERMINAL)
    if counted.kinds:
        for line in table([_HEADS, *map(_row, (*counted.kinds, counted.in_all))]):
            click.echo(line)
    if counted.faults:
        for fault in counted.faults:
            click.echo(fault, err=True)
        click.echo("`courseware again` makes papers, keys and class grid anew, `courseware mark` the rest.", err=True)
        raise click.exceptions.Exit(2)


def table(rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows of cells as lines: the first column begins at the left, all others end at the right."""
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [_BETWEEN.join([row[0].ljust(wide[0]), *map(str.rjust, row[1:], wide[1:])]).rstrip() for row in rows]


def _row(kind: KindCounted) -> tuple[str, ...]:
    from courseware.reports.words import whole_percent

    each = _span([file.sides for file in kind.files])
    drawings = _span(kind.drawings) if kind.drawings else ""
    white = f"{whole_percent(kind.white)} %"
    return (kind.kind, str(len(kind.files)), each, white, drawings, str(kind.sides), str(kind.sheets))


def _span(figures: Collection[int]) -> str:
    """The least and the greatest: `7 to 8`; one figure where all are alike."""
    least, most = min(figures), max(figures)
    return f"{least}" if least == most else f"{least} to {most}"
