"""Papers printed as they were dealt for approval."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from courseware.printing.versions import versions
from courseware.workflows import issuing
from courseware.workflows.approval import discard_dealt, must_be_approved, read_dealt
from courseware.workflows.issue import Issued, IssueOptions, keep_issued
from courseware.workflows.watch import Watch


def issue_approved(dealt: Path, options: IssueOptions, watch: Watch) -> Issued:
    """Prints a sitting as it was dealt for approval, from its folder, which goes once all is printed."""
    sitting, word = read_dealt(dealt)
    must_be_approved(options.settings, options.approved_by)
    sitting = replace(sitting, approved_by=options.approved_by, made_with=versions())
    with watch.progress("Printing", issuing.sheets_each(word) * len(sitting.papers)) as tell:
        folder, resumed = issuing.issue_dealt(sitting, options.out, options.processes, tell, watch.waiting, word=word)
    keep_issued(folder, options, watch)
    discard_dealt(dealt)
    return Issued(folder=folder, papers=len(sitting.papers), resumed=resumed, arris_rule="")
