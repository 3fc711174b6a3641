"""Marking as long work: what is said of it, and where it leads."""

from __future__ import annotations

from pathlib import Path

from courseware.desk.marking_work import mark_and_tell
from courseware.files.sitting_folders import sitting_folder
from courseware.workflows.mark_sitting import MarkOptions, mark_sitting
from tests.piers_sitting import answer, fill, papers
from tests.workflows.conftest import Heard


def test_it_says_what_was_marked_and_leads_to_what_waits(piers_sitting: Path) -> None:
    first, *_ = papers(piers_sitting)
    where = sitting_folder(str(piers_sitting))
    code = where.sitting.code
    heard = Heard()
    nothing = mark_and_tell(where, heard, assessor="J. Marsh", names=False, processes=1)
    assert nothing.onward == (("Type answers in", f"/sittings/{code}/grid"),)
    sheet = fill(
        piers_sitting, "a.csv", {"1a": answer(first, "1a"), "1b": "7"}, {"1a": "about 12"}, {"status": "absent"}
    )
    mark_sitting(where, sheet, (), MarkOptions(assessor="J. Marsh"), heard, when_marked=lambda *_: None)
    made = mark_and_tell(where, heard, assessor="J. Marsh", names=False, processes=1)
    assert made.says == "2 scripts marked, 1 absent. 2 answers wait for a look."
    assert [file.path.name for file in made.files] == [
        "all-feedback.pdf",
        "class-picture.pdf",
        "class-picture.xlsx",
        "to-settle.xlsx",
    ]
    assert made.onward[0] == ("Look at what waits", f"/sittings/{code}/waiting")
    assert heard.notes[-1].endswith("left alone: something else was typed here since.")
