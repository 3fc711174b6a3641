"""Two markers' differences as a sheet and as a workbook that is taken back as decisions."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import openpyxl
import pytest

from courseware.marking.marking_sheet import marking_sheet
from courseware.marking.marks import Mark, MarkedPaper
from courseware.marking.script_sheet import read_scripts
from courseware.quality.marks_by_hand import HandMark
from courseware.quality.second_marking import compare
from courseware.quality.second_marking_sheet import is_settling, second_sheet, second_workbook
from tests.quality.conftest import by_hand, decided, paper


def text_of(sheet) -> str:
    """Everything a sheet says."""
    lines = [line for block in sheet.blocks for line in block.text]
    cells = [cell for block in sheet.blocks if block.table for row in block.table.rows for cell in row]
    return "\n".join([*lines, *cells])


def test_the_sheet_shows_no_mark_of_the_first_before_the_second_is_done(dealt) -> None:
    sitting = dealt("opening_sizes", exercises=2)
    found = compare([paper("A", 4, 2, 1)], by_hand("A", 0, 0), program_counts=True)
    text = text_of(second_sheet(found, sitting, "2026-01-06", {}))
    assert "nothing of either is shown" in text
    assert "earned" not in text
    assert "1b =" not in text


@pytest.fixture
def sitting(dealt):
    return dealt("opening_sizes", exercises=2)


@pytest.fixture
def differing(sitting):
    """The first paper of the sitting, marked differently in its first part; what was typed looks like a formula."""
    issued = sitting.papers[0]
    parts = [part for exercise in issued.exercises for part in exercise.parts]
    ours = [Mark(label=p.label, marks=p.marks, of=p.marks, how="right", why="Right.", written="=1+1") for p in parts]
    first = MarkedPaper(code=issued.code, status="", marks=tuple(ours))
    note = f"{issued.learner.name} wrote nothing."
    theirs = [HandMark(code=issued.code, attempt=1, label=p.label, marks=p.marks, by="P. Dunn") for p in parts]
    return compare([first], [replace(theirs[0], marks=0, note=note), *theirs[1:]], program_counts=True)


def test_what_was_typed_is_shown_and_never_worked_out(sitting, differing) -> None:
    book = openpyxl.load_workbook(BytesIO(second_workbook(differing, sitting, "2026-01-06", {})))
    sheet = book["Decisions"]
    headings = [cell.value for cell in sheet[1]]
    assert headings[:5] == ["code", "part", "marks", "reason", "comment"]
    typed = sheet.cell(2, headings.index("written") + 1)
    assert (typed.value, typed.data_type, typed.quotePrefix) == ("=1+1", "s", True)


def test_the_workbook_is_taken_back_as_decisions(sitting, differing) -> None:
    book = openpyxl.load_workbook(BytesIO(second_workbook(differing, sitting, "2026-01-06", {})))
    book["Decisions"]["C2"] = 1
    book["Decisions"]["D2"] = "Agreed on the working"
    written = BytesIO()
    book.save(written)
    read = read_scripts(written.getvalue(), "two-markers.xlsx", sitting)
    (decided,) = read.decisions
    assert (decided.code, decided.marks, decided.reason) == (sitting.papers[0].code, 1, "Agreed on the working")
    assert read.scripts == ()


def test_a_learners_name_in_a_reason_gives_way_to_the_code(sitting, differing) -> None:
    learner = sitting.papers[0].learner.name
    text = text_of(second_sheet(differing, sitting, "2026-01-06", {}))
    assert learner not in text
    assert f"{sitting.papers[0].code} wrote nothing." in text
    named = text_of(second_sheet(differing, sitting, "2026-01-06", {sitting.papers[0].code: learner}))
    assert f"{learner} wrote nothing." in named


def test_few_papers_are_told_to_be_few(sitting, differing) -> None:
    assert "1 paper says little" in text_of(second_sheet(differing, sitting, "2026-01-06", {}))


def test_the_same_differences_give_the_same_bytes(sitting, differing) -> None:
    one, other = (second_workbook(differing, sitting, "2026-01-06", {}) for _ in range(2))
    assert one == other


def test_a_difference_on_a_paper_handed_in_again_says_which_script(sitting) -> None:
    code = sitting.papers[0].code
    first = [paper(code, 1, 1, 1), paper(code, 4, 4, 4, status="resubmitted")]
    found = compare(first, by_hand(code, 4, 4, 3, attempt=2), program_counts=True)
    sheet = second_sheet(found, sitting, "2026-01-06", {})
    assert f"{code} (script 2)" in text_of(sheet)
    assert "(script 1)" not in text_of(sheet)


def test_the_centres_name_stands_over_it_as_over_the_sittings_papers(sitting, differing) -> None:
    named = replace(sitting, settings=replace(sitting.settings, name="Brookfield College"))
    assert second_sheet(differing, named, "2026-01-06", {}).centre == "Brookfield College"
    assert second_sheet(compare([], []), named, "2026-01-06", {}).centre == "Brookfield College"
    assert second_sheet(differing, sitting, "2026-01-06", {}).centre == ""


def test_how_many_parts_have_one_persons_mark_alone_is_told(sitting) -> None:
    code = sitting.papers[0].code
    found = compare([decided(paper(code, 4, 2, 1), "1a")], by_hand(code, 4, 2, 1))
    text = text_of(second_sheet(found, sitting, "2026-01-06", {}))
    assert "On 1 paper both have marked 1 part: 0 parts differently." in text
    assert "2 parts have one person's mark alone and do not count" in text


def test_a_sheet_to_settle_on_is_known_whatever_it_is_called(sitting, differing) -> None:
    assert is_settling(second_workbook(differing, sitting, "2026-01-06", {}), "agreed at last.xlsx")
    assert not is_settling(marking_sheet(sitting), "two-markers.xlsx")
    assert not is_settling(b"code,part", "two-markers.csv")
