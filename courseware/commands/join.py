"""`courseware join`: papers for learners who come to a group after its sitting was issued."""

from __future__ import annotations

from pathlib import Path

import click

from courseware.commands.options import by_option, cores, jobs_option, printable, who_says
from courseware.commands.terminal import TERMINAL
from courseware.words import count


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.option("--name", default=None, help="The learner who joins.")
@click.option("--reference", default="", help="The college's reference of that learner.")
@click.option("--group", metavar="FILE", default=None, help="Instead: a class list of those who join.")
@by_option
@jobs_option
def join(sitting: str, name: str | None, reference: str, group: str | None, by: str | None, jobs: int | None) -> None:
    """Make papers for learners who join SITTING after it was issued; nobody else's papers change."""
    if (name is None) == (group is None):
        raise click.UsageError("Give either --name, of one learner, or --group with a class list of those who join.")
    if reference and group:
        raise click.UsageError("--reference goes with --name; a class list has a column for it.")
    from courseware.papers.group import Learner
    from courseware.workflows import changes
    from courseware.workflows.issue import group_of

    if name is not None:
        learners: tuple[Learner, ...] = (
            Learner(name=printable(name, "--name") or "", reference=printable(reference, "--reference") or ""),
        )
    else:
        learners = group_of(Path(group or ""), 1, None, TERMINAL).learners
    changed = changes.join(sitting, learners, cores(jobs), TERMINAL, by=who_says(by, "--by"))
    click.echo(f"{count(len(changed.papers), 'paper')} more in {changed.folder}")
    for paper in changed.papers:
        click.echo(f"  {paper.code}  {paper.learner.name}")
    click.echo("  all-papers.pdf, all-keys.pdf, the class grid and the marking sheet have them too.")
