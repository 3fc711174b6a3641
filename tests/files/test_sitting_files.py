"""The program's own files in a sitting's folder: two rooms and what comes of marking, each learner's by paper code."""

from __future__ import annotations

from dataclasses import replace
from pathlib import PurePosixPath

from courseware.files import sitting_files
from courseware.files.sitting_files import (
    feedback_file,
    issued_files,
    key_file,
    own_files,
    paper_file,
    sheet_files,
    word_file,
)


def test_each_paper_has_its_own_files_in_three_rooms(dealt) -> None:
    sitting = dealt(exercises=1)
    own = own_files(sitting)
    for paper in sitting.papers:
        assert {name for name in own if paper.code in name} == {
            f"for-learners/paper-{paper.code}.pdf",
            f"for-learners/paper-{paper.code}.docx",
            f"for-tutor/key-{paper.code}.pdf",
            f"for-tutor/key-{paper.code}.docx",
            f"marked/feedback-{paper.code}.pdf",
        }
        assert set(issued_files(paper.code)) == {
            name for name in own if paper.code in name and not name.startswith("marked/")
        }


def test_an_editable_copy_stands_beside_its_sheet() -> None:
    assert word_file(paper_file("X")) == "for-learners/paper-X.docx"
    assert word_file(key_file("X")) == "for-tutor/key-X.docx"
    assert feedback_file("X") == "marked/feedback-X.pdf"


def test_what_is_not_one_learners_is_there_once_however_many_they_are(dealt) -> None:
    sitting = dealt(exercises=1)
    shared = {name for name in own_files(sitting) if not any(paper.code in name for paper in sitting.papers)}
    assert shared >= {"sitting.json", sitting_files.ALL_PAPERS, sitting_files.ALL_KEYS, sitting_files.GRID}
    assert shared >= set(sheet_files())
    alone = replace(sitting, papers=sitting.papers[:1])
    assert {name for name in own_files(alone) if sitting.papers[0].code not in name} == shared


def test_nothing_that_holds_answers_lies_in_the_learners_room(dealt) -> None:
    for_learners = {name for name in own_files(dealt(exercises=1)) if name.startswith("for-learners/")}
    assert all(PurePosixPath(name).name.startswith(("paper-", "all-papers")) for name in for_learners)


def test_every_name_keeps_within_the_folder(dealt) -> None:
    for name in own_files(dealt(exercises=1)):
        path = PurePosixPath(name)
        assert not path.is_absolute()
        assert ".." not in path.parts
        assert len(path.parts) <= 2
