"""The grid on the screen: the same records and marks as by the sheet, and what stands beside each cell."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.database.scripts import decisions_of, scripts_of
from courseware.database.typed_cells import TypedCell, type_cell
from courseware.marking.marks import Decision
from courseware.marking.script_sheet import Scripts
from courseware.workflows import marking_grid as marking_grid_module
from courseware.workflows.marking import enter_and_mark, marked_as_it_stands
from courseware.workflows.marking_grid import (
    CellRefused,
    beside_cell,
    beside_script,
    keep_cell,
    marking_grid,
    paper_of,
    typed_since,
)
from tests.marked_sitting import WHEN, figure, script

LATER = WHEN + timedelta(hours=1)


@pytest.fixture
def engine(place):
    """The record of the marked sitting: the first learner all right, the second decided, the third absent."""
    opened = open_record("sqlite:///output/record.sqlite")
    yield opened
    opened.dispose()


@pytest.fixture
def anew(tmp_path):
    """A record that has nothing yet."""
    opened = open_record(f"sqlite:///{tmp_path / 'anew.sqlite'}")
    yield opened
    opened.dispose()


def cell(code: str, label: str, text: str, seen: str = "", attempt: int = 1) -> TypedCell:
    return TypedCell(code=code, attempt=attempt, label=label, text=text, seen=seen)


def type_out(engine, place, *scripts, by="J. Marsh", at=WHEN) -> None:
    """Scripts typed cell by cell, as somebody does who has only the keyboard."""
    for one in scripts:
        attempt = 2 if one.status == "resubmitted" else 1
        for label, text in one.cells.items():
            if text:
                keep_cell(engine, place, cell(one.code, label, text, attempt=attempt), assessor=by, at=at)
        if one.status and attempt == 1:
            keep_cell(engine, place, cell(one.code, "", one.status[0]), assessor=by, at=at)


def mark(engine, place, sheet: Scripts, *decisions: Decision):
    return enter_and_mark(
        engine, place, sheet, decisions, assessor="J. Marsh", role="first", source="marking-sheet.xlsx", at=LATER
    )[1]


def test_the_first_two_cells_of_a_sitting_sent_at_the_same_moment_both_stand(place, anew, monkeypatch) -> None:
    paper = place.sitting.papers[0]
    first, second = (part.label for part in paper.parts[:2])
    calls: list[str] = []

    def overtaken(engine, sitting, typed, *rest, **how):
        calls.append(typed.label)
        if len(calls) == 1:  # while this one finds that the record has no sitting, the other has it taken in
            keep_cell(anew, place, cell(paper.code, second, "2"), assessor="J. Marsh", at=WHEN)
            raise RecordRefuses("the record has no such sitting")
        return type_cell(engine, sitting, typed, *rest, **how)

    monkeypatch.setattr(marking_grid_module, "type_cell", overtaken)
    keep_cell(anew, place, cell(paper.code, first, "1"), assessor="J. Marsh", at=WHEN)
    stands = marking_grid(anew, place).rows[0].cells
    assert stands[:2] == ("1", "2")


def test_marking_by_the_sheet_and_by_the_grid_are_the_same_marks_and_records(place, anew, tmp_path) -> None:
    first, second, third = place.sitting.papers
    label = figure(second)
    wrong = script(second, 0, **{f"_{label}": "9 100", f"_{second.parts[1].label}": "nr"})
    again = replace(script(second, 0, **{f"_{label}": "7"}), status="resubmitted")
    typed = (script(first, 0), wrong, again, replace(script(third, 0), cells=dict.fromkeys(script(third, 0).cells, ""), status="absent"))  # fmt: skip
    decided = Decision(code=second.code, label=label, marks=1, reason="shown aloud")
    by_sheet = open_record(f"sqlite:///{tmp_path / 'sheet.sqlite'}")
    one = mark(by_sheet, place, Scripts(scripts=typed, decisions=(), notes=()), decided)
    type_out(anew, place, *typed)
    blank = tuple(replace(script(paper, 2), cells=dict.fromkeys(script(paper, 2).cells, "")) for paper in place.sitting.papers)  # fmt: skip
    other = mark(anew, place, Scripts(scripts=(), blank=blank, decisions=(), notes=()), decided)
    assert one == other
    code = place.sitting.code
    assert scripts_of(by_sheet, code, "first") == scripts_of(anew, code, "first")
    assert marks_of(by_sheet, code, "first") == marks_of(anew, code, "first")
    assert decisions_of(by_sheet, code, "first") == decisions_of(anew, code, "first")
    assert marked_as_it_stands(anew, place, "first") == other
    by_sheet.dispose()


def test_a_sitting_that_the_record_does_not_have_is_a_grid_of_blanks(place, anew) -> None:
    grid = marking_grid(anew, place)
    assert [row.name for row in grid.rows] == [paper.learner.name for paper in place.sitting.papers]
    assert all(row.empty for row in grid.rows)
    assert [column.label for column in grid.columns] == [part.label for part in place.sitting.papers[0].parts]
    assert [column.label for column in grid.columns if column.begins] == ["1a", "2a", "3a"]
    assert (grid.newest, grid.otherwise) == (0, ())


def test_the_grid_has_what_came_in_by_the_sheet(engine, place) -> None:
    first, second, third = marking_grid(engine, place).rows
    written = script(place.sitting.papers[0], 2)
    assert first.cells == tuple(written.cells[column.label] for column in marking_grid(engine, place).columns)
    assert (second.empty, third.status, third.empty) == (False, "absent", False)


def test_the_first_cell_takes_the_sitting_into_the_record(place, anew) -> None:
    paper = place.sitting.papers[0]
    keep_cell(anew, place, cell(paper.code, paper.parts[0].label, "910"), assessor="J. Marsh", at=WHEN)
    assert marking_grid(anew, place).rows[0].cells[0] == "910"


def test_only_what_was_typed_since_is_told(engine, place) -> None:
    before = marking_grid(engine, place)
    assert not typed_since(engine, place, before.newest).rows
    paper = place.sitting.papers[1]
    keep_cell(engine, place, cell(paper.code, paper.parts[1].label, "5", "x"), assessor="A. Boateng", at=LATER)
    since = typed_since(engine, place, before.newest)
    assert not since.rows, "what stood was not what was seen: it is kept beside it"
    [both] = since.otherwise
    assert (both.by, both.text) == ("A. Boateng", "5")
    keep_cell(engine, place, cell(paper.code, paper.parts[1].label, "5", both.stands), assessor="A. Boateng", at=LATER)
    [row] = typed_since(engine, place, before.newest).rows
    assert (row.code, row.number, row.cells[1]) == (paper.code, 2, "5")


@pytest.mark.parametrize(
    ("label", "text", "says"),
    [
        ("1a", "9" * 201, "it has 201 characters; at most 200 are kept"),
        ("1a", "9\u202e1", "characters that do not show"),
        ("", "ill", "write absent or late"),
        ("", "resubmitted", "write absent or late"),
    ],
)
def test_what_cannot_be_kept_is_refused(engine, place, label, text, says) -> None:
    code = place.sitting.papers[0].code
    with pytest.raises(CellRefused, match=says):
        keep_cell(engine, place, cell(code, label, text), assessor="J. Marsh", at=LATER)


def test_as_many_characters_as_a_sheets_cell_holds_are_kept(place, anew) -> None:
    code = place.sitting.papers[0].code
    assert keep_cell(anew, place, cell(code, "1a", "9" * 200), assessor="J. Marsh", at=LATER).saved == "entered"


def test_beside_a_cell_stand_the_question_of_this_learner_and_its_key(engine, place) -> None:
    second = place.sitting.papers[1]
    label = figure(second)
    part = next(part for part in second.parts if part.label == label)
    beside = beside_cell(engine, place, (second.code, 1, label))
    assert (beside.name, beside.typed, beside.read.reading) == (second.learner.name, "7", "7 mm")
    assert beside.answer.answer == f"{part.answer} mm"
    assert [slip.figure for slip in beside.answer.slips] == [f"{value} mm" for value, _ in part.slips]
    assert beside.read.mark.how == "decided"
    assert beside.exercise.drawing is not None
    assert beside.asked.ask
    assert beside.how_to_write.startswith("as written")


def test_a_cell_is_read_as_it_is_typed_without_being_kept(engine, place) -> None:
    second = place.sitting.papers[1]
    label = figure(second)
    right = next(part.answer for part in second.parts if part.label == label)
    beside = beside_cell(engine, place, (second.code, 1, label), f"{right} mm")
    assert (beside.read.mark.how, beside.typed) == ("right", f"{right} mm"), "the decision was on another answer"
    assert beside_cell(engine, place, (second.code, 1, label)).typed == "7"


def test_what_is_carried_and_the_earlier_answers_stand_beside_a_later_cell(engine, place) -> None:
    """The diagonal of a frame (3c) goes by its width (3a) and height (3b); other exercises have nothing to do with it."""
    second = place.sitting.papers[1]
    wide = next(part for part in second.parts if part.label == "3a")
    wrong = str(int(wide.answer) + 10)
    typed = cell(second.code, "3a", wrong, beside_cell(engine, place, (second.code, 1, "3a")).typed)
    keep_cell(engine, place, typed, assessor="J. Marsh", at=LATER)
    whole = beside_script(engine, place, second.code, 1)
    assert [one.label for one in whole] == [part.label for part in second.parts]
    assert [one.label for one in whole if one.read.carried] == ["3c"]
    diagonal = next(one for one in whole if one.label == "3c")
    assert next((mark.label, mark.written) for mark in diagonal.earlier) == ("3a", wrong)
    assert [mark.label for mark in diagonal.earlier] == ["3a", "3b"]
    assert diagonal == beside_cell(engine, place, (second.code, 1, "3c"))


def test_a_script_handed_in_again_starts_from_what_stands(engine, place) -> None:
    second = place.sitting.papers[1]
    label = figure(second)
    beside = beside_cell(engine, place, (second.code, 2, label))
    assert (beside.typed, beside.marked.status) == ("", "resubmitted")
    keep_cell(engine, place, cell(second.code, label, "8", attempt=2), assessor="J. Marsh", at=LATER)
    assert [row.attempt for row in marking_grid(engine, place).rows if row.code == second.code] == [1, 2]


def test_a_paper_or_part_of_another_sitting_is_refused(engine, place) -> None:
    with pytest.raises(RecordRefuses, match="has no paper AAAA"):
        beside_cell(engine, place, ("AAAA", 1, "1a"))
    with pytest.raises(RecordRefuses, match="has no part 9z"):
        beside_cell(engine, place, (place.sitting.papers[0].code, 1, "9z"))
    with pytest.raises(RecordRefuses):
        keep_cell(engine, place, cell("AAAA", "1a", "9"), assessor="J. Marsh", at=LATER)
    with pytest.raises(RecordRefuses):
        paper_of(place.sitting, "AAAA")
    assert Path("output/record.sqlite").exists()
