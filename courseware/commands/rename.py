"""`courseware rename`: a learner's name put right after a sitting was issued."""

from __future__ import annotations

import click

from courseware.commands.options import cores, jobs_option, printable
from courseware.commands.terminal import TERMINAL


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.argument("who", metavar="WHO")
@click.option("--name", required=True, help="The name as it should be.")
@click.option("--reference", default=None, help="The college's reference as it should be (as it is unless given).")
@jobs_option
def rename(sitting: str, who: str, name: str, reference: str | None, jobs: int | None) -> None:
    """Put right the name of WHO (code, reference or name) in SITTING: paper, key, class grid, marking sheet."""
    from courseware.workflows import changes

    changed = changes.rename(
        sitting, who, printable(name, "--name") or "", printable(reference, "--reference"), cores(jobs), TERMINAL
    )
    for paper in changed.papers:
        click.echo(f"{paper.code} is {paper.learner.name}'s now, in {changed.folder}")
    click.echo("  Feedback and class picture have the new name once the sitting is marked again.")
