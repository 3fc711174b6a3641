"""`courseware demo`: everything the program makes, for a group that does not exist."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from courseware.commands.issue import tell_issued
from courseware.commands.job import write_jobs
from courseware.commands.mark import mark_demo
from courseware.commands.options import by_centre, cores, day, folder_of, jobs_option, out_option
from courseware.commands.practise import tell_page
from courseware.commands.terminal import TERMINAL

if TYPE_CHECKING:
    from courseware.settings.settings import Settings


@click.command()
@by_centre("job")
@jobs_option
@out_option
def demo(settings: Settings, jobs: int | None, out: str) -> None:
    """Everything for an invented group of eight: papers, invented answers marked, the practice page, a job."""
    import secrets

    from courseware.files.bank_files import shipped_banks
    from courseware.papers.invented import invented_group
    from courseware.workflows.glossary import find_glossary
    from courseware.workflows.issue import IssueOptions, issue_sitting
    from courseware.workflows.jobs import shipped_jobs
    from courseware.workflows.practise import to_practise

    options = IssueOptions(
        title="Setting out", out=folder_of(out), settings=settings, processes=cores(jobs),
        approved_by="an invented assurer" if settings.approval else "",
    )  # fmt: skip
    banks = tuple(path.stem for path in shipped_banks())
    issued = issue_sitting(banks, invented_group(8, secrets.randbits(64)), day(None), options, TERMINAL)
    tell_issued(issued)
    mark_demo(issued.folder, jobs)
    found = to_practise(banks, None, None, settings, cores(jobs), TERMINAL)
    tell_page(issued.folder.parent / "practice.html", found, find_glossary(None, None, TERMINAL))
    write_jobs((next(iter(shipped_jobs())),), day(None), out, settings)
