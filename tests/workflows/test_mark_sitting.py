"""A sitting marked as one step, as the command line and a browser ask for it: what is heard, and in which order."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from courseware.database.scripts import Entered
from courseware.database.typed_cells import TypedCell, type_cell
from courseware.files.record_location import opened, record_url
from courseware.files.sitting_folders import sitting_folder
from courseware.marking.mark import Marked
from courseware.workflows.mark_sitting import (
    MarkedAndWritten,
    MarkOptions,
    NotADecision,
    NothingToMark,
    fill_with_invented_answers,
    mark_sitting,
)
from tests.piers_sitting import answer, fill, papers, scripts_in
from tests.workflows.conftest import Heard

BY = MarkOptions(assessor="J. Marsh")


@pytest.fixture
def sitting(piers_sitting: Path) -> Path:
    """The sitting on piers, just issued."""
    return piers_sitting


def marked(folder: Path, sheet: str | None, heard: Heard, *typed, options=BY) -> tuple[MarkedAndWritten, list[object]]:
    """What came of it, and what was heard when all was marked: whether the folder of feedback was there yet."""
    told: list[object] = []

    def hear(entered: Entered, found: Marked) -> None:
        told.append((len(entered.new), len(found.papers), (folder / "marked").exists()))

    return mark_sitting(sitting_folder(str(folder)), sheet, typed, options, heard, when_marked=hear), told


def test_all_is_told_once_marked_before_anything_is_written(sitting: Path, heard: Heard) -> None:
    first, *_ = papers(sitting)
    sheet = fill(sitting, "a.csv", {"1a": answer(first, "1a")}, {"1a": "about 12"})
    done, told = marked(sitting, sheet, heard)
    assert told == [(2, 2, False)]
    assert done.folder == sitting / "marked"
    assert (done.folder / f"feedback-{first['code']}.pdf").is_file()
    assert heard.work["Feedback sheets"] == (2, 2)
    assert [question.written for question in done.marked.questions] == ["about 12"]


def test_answers_to_look_at_are_counted(sitting: Path, heard: Heard) -> None:
    done, _ = marked(sitting, fill(sitting, "a.csv", {"1a": "7", "1b": "8"}), heard)
    assert done.to_look_at == 2


def test_where_nothing_was_typed_nothing_is_entered(sitting: Path, heard: Heard) -> None:
    with pytest.raises(NothingToMark):
        marked(sitting, None, heard)
    assert scripts_in() == 0


@pytest.mark.parametrize(
    ("part", "marks", "why"),
    [("1a", "9", "`9` is not a mark in whole marks from 0 to 2"), ("9z", "1", "`9z` is not a part of the paper")],
)
def test_a_typed_decision_that_cannot_stand_is_told_before_anything_is_entered(
    sitting: Path, heard: Heard, part: str, marks: str, why: str
) -> None:
    code = papers(sitting)[0]["code"]
    with pytest.raises(NotADecision, match=why):
        marked(sitting, fill(sitting, "a.csv", {"1a": "7"}), heard, (code, part, marks, "so"))
    assert scripts_in() == 0


def test_a_decision_alone_is_enough_once_the_paper_is_in(sitting: Path, heard: Heard) -> None:
    code = papers(sitting)[0]["code"]
    marked(sitting, fill(sitting, "a.csv", {"1a": "7"}), heard)
    done, told = marked(sitting, None, heard, (code, "1a", "1", "the method is shown"))
    assert told == [(0, 1, True)]
    assert done.marked.papers[0].marks[0].how == "decided"
    assert (sitting / "for-tutor/decisions.xlsx").is_file()


def test_what_is_doubtful_in_a_sheet_is_noted(sitting: Path, heard: Heard) -> None:
    sheet = Path(fill(sitting, "a.csv", {"1a": "7"}))
    text = sheet.read_text(encoding="utf-8").replace("status,1a", "Van,status,1a").replace(",,7,", ",,,7,")
    head, row, *_ = text.splitlines()
    sheet.write_text(f"{head}\n{row}\n", encoding="utf-8")
    marked(sitting, str(sheet), heard)
    assert "Not used: the column `Van`." in heard.notes


def test_a_demonstration_is_filled_in_with_slips_to_find(sitting: Path, heard: Heard) -> None:
    """So that its class picture has something to show; the same sitting is filled in alike each time."""
    sheet = sitting / "for-tutor/marking-sheet.xlsx"
    fill_with_invented_answers(sitting_folder(str(sitting)))
    filled = sheet.read_bytes()
    fill_with_invented_answers(sitting_folder(str(sitting)))
    assert sheet.read_bytes() == filled
    done, _ = marked(sitting, None, heard)
    assert len(done.marked.papers) == len(papers(sitting))


def test_what_was_typed_on_the_screen_is_marked_with_an_empty_sheet(sitting: Path, heard: Heard) -> None:
    """The record has it, and neither the blank sheet nor one filled in since then undoes it."""
    first, second, *_ = papers(sitting)
    where = sitting_folder(str(sitting))
    marked(sitting, fill(sitting, "a.csv", {"1a": answer(first, "1a"), "1b": "7"}), heard)
    with opened(record_url(None, Path("output")), make=False) as engine:
        for code, text, seen in ((first["code"], "8", "7"), (second["code"], answer(second, "1b"), "")):
            cell = TypedCell(code=code, attempt=1, label="1b", text=text, seen=seen)
            now = datetime.now(UTC)
            type_cell(engine, where.sitting.code, cell, ["1a", "1b"], assessor="J. Marsh", role="first", at=now)
    done, told = marked(sitting, None, heard)
    assert told == [(0, 2, True)]
    written = {paper.code: [mark.written for mark in paper.marks] for paper in done.marked.papers}
    assert written == {first["code"]: [answer(first, "1a"), "8"], second["code"]: ["", answer(second, "1b")]}
    again, _ = marked(sitting, "a.csv", heard)
    assert again.marked.papers == done.marked.papers
