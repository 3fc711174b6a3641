"""`courseware plan`: a scheme of work laid over the weeks of the centre's course."""

from __future__ import annotations

import click

from courseware.commands.options import day, folder_of, out_option, settings_of
from courseware.words import count


@click.command()
@click.argument("centre", required=False, metavar="[FILE]")
@click.option("--anew", is_flag=True, help="Write over a table that is there, with all that was changed in it.")
@out_option
def plan(centre: str | None, anew: bool, out: str) -> None:
    """Lay topics over the weeks of your course: each comes back at least twice, weeks apart.

    The weeks stand under `course` in FILE, else in centre.yaml. Change the table as you like: `issue --week` reads it.
    """
    settings = settings_of(centre, "plan")
    from courseware.workflows.scheme import plan as workflow

    made = workflow(settings, folder_of(out), day(None), anew=anew)
    topics = len({lesson.topic for lesson in made.lessons})
    click.echo(
        f"{count(topics, 'topic')} over {count(len(made.weeks), 'week')}, from {made.weeks[0]} to {made.weeks[-1]}:"
    )
    for file in made.files:
        click.echo(f"  {file}")
    taught = {lesson.week for lesson in made.lessons}
    if free := [str(week) for week in range(1, len(made.weeks) + 1) if week not in taught]:
        click.echo(
            f"Nothing stands in {'week' if len(free) == 1 else 'weeks'} {', '.join(free)}: no topic is due so soon."
        )
