"""`courseware again`: a sitting's PDFs made again from its sitting.json alone."""

from __future__ import annotations

import click

from courseware.commands.options import cores, folder_of, jobs_option, out_option, word_option
from courseware.commands.terminal import TERMINAL


@click.command()
@click.argument("sitting", metavar="SITTING")
@click.option(
    "--for", "who", multiple=True, metavar="WHO", help="Only this learner's paper and key (code, reference or name)."
)
@out_option
@word_option
@jobs_option
def again(sitting: str, who: tuple[str, ...], out: str, word: bool, jobs: int | None) -> None:
    """Make the PDFs of SITTING (its folder or sitting.json) again from its sitting.json alone, byte for byte."""
    from courseware.files.sitting_folders import sitting_folder
    from courseware.printing.versions import versions, what_differs
    from courseware.workflows import issuing
    from courseware.workflows.retaking import learners_of

    into = folder_of(out)
    found = sitting_folder(sitting)
    papers = learners_of(found.sitting, who)
    places = tuple(found.sitting.papers.index(paper) for paper in papers) if who else ()
    with TERMINAL.progress("Printing", issuing.sheets_each(word) * len(papers)) as tell:
        folder = issuing.again(
            found.text, found.sitting, into, cores(jobs), tell, TERMINAL.waiting, word=word, places=places
        )
    click.echo(f"Made again in {folder}")
    if differs := what_differs(found.sitting.made_with, versions()):
        TERMINAL.note(f"{differs}.")
