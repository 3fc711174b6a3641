"""A sheet entered and all of its sitting marked: what the record has of it, whoever typed it in."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.database.states import confirm, release, script_states
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.mark import mark_scripts
from courseware.marking.marking_sheet import marking_sheet
from courseware.marking.marks import Decision
from courseware.marking.script_sheet import Scripts
from courseware.workflows.marking import enter_and_mark, marked_folder, read_sheet
from tests.marked_sitting import WHEN, figure, script


@pytest.fixture
def engine(place):
    """The record of the marked sitting: the first learner all right, the second decided, the third absent."""
    opened = open_record("sqlite:///output/record.sqlite")
    yield opened
    opened.dispose()


def enter(engine, place: SittingFolder, *scripts, decisions=(), typed=(), blank=(), by="J. Marsh"):
    sheet = Scripts(scripts=scripts, decisions=decisions, blank=blank, notes=())
    later = WHEN + timedelta(days=1)
    return enter_and_mark(engine, place, sheet, typed, assessor=by, role="first", source="marking-sheet.xlsx", at=later)


def test_the_whole_sitting_is_marked_whatever_the_sheet_holds(engine, place) -> None:
    """An empty sheet changes nothing; all that was entered before is marked and comes back."""
    entered, marked = enter(engine, place)
    assert (entered.new, entered.changed) == ((), ())
    assert [paper.code for paper in marked.papers] == [paper.code for paper in place.sitting.papers]
    assert marked.papers[0].total == marked.papers[0].of
    assert marked.papers[2].status == "absent"


def test_a_row_cleared_on_the_sheet_is_a_paper_not_in(engine, place) -> None:
    first = place.sitting.papers[0]
    blank = replace(script(first, 2), cells=dict.fromkeys(script(first, 2).cells, ""))
    entered, marked = enter(engine, place, blank=(blank,))
    assert {change.code for change in entered.changed} == {first.code}
    assert first.code not in {paper.code for paper in marked.papers}


def test_a_blank_row_of_a_paper_that_never_came_in_is_no_script(engine, place) -> None:
    """Every sheet has such rows: they are not entered."""
    third = place.sitting.papers[2]
    engine.dispose()
    anew = open_record("sqlite:///anew.sqlite")
    blank = replace(script(third, 4), cells={})
    entered, marked = enter(anew, place, script(place.sitting.papers[0], 2), blank=(blank,))
    anew.dispose()
    assert entered.new == (place.sitting.papers[0].code,)
    assert [paper.code for paper in marked.papers] == [place.sitting.papers[0].code]


def test_marks_are_kept_and_the_same_sheet_once_more_adds_none(engine, place) -> None:
    before = marks_of(engine, place.sitting.code, "first")
    assert before
    enter(engine, place, script(place.sitting.papers[0], 2))
    assert marks_of(engine, place.sitting.code, "first") == before


def test_a_decision_whose_answer_was_changed_is_put_to_the_assessor(engine, place) -> None:
    second = place.sitting.papers[1]
    label = figure(second)
    _, marked = enter(engine, place, script(second, 3, **{f"_{label}": "8"}))
    [lapsed] = [question for question in marked.questions if question.label == label]
    assert (lapsed.code, lapsed.written) == (second.code, "8")
    assert "was made on `7` and has lapsed; decide again" in lapsed.why
    assert next(mark for mark in marked.papers[1].marks if mark.label == label).how != "decided"


def test_what_a_sheet_decides_otherwise_than_stands_is_told(engine, place) -> None:
    second = place.sitting.papers[1]
    on_sheet = Decision(
        code=second.code, label=figure(second), marks=1, reason="Łukasz Wójcik showed the working aloud"
    )
    given = replace(on_sheet, marks=0, reason="copied from the board")
    enter(engine, place, typed=(given,))
    entered, _ = enter(engine, place, decisions=(on_sheet,))
    assert [(sheet.marks, stands.marks) for sheet, stands in entered.differing] == [(1, 0)]


def test_the_sittings_own_sheet_is_read_unless_another_is_named(place, tmp_path) -> None:
    with pytest.raises(NotFound, match=r"marking-sheet\.xlsx"):
        read_sheet(place, None)
    (place.path / "for-tutor").mkdir()
    filled = (script(place.sitting.papers[0], 2),)
    (place.path / "for-tutor/marking-sheet.xlsx").write_bytes(marking_sheet(place.sitting, filled))
    assert [one.code for one in read_sheet(place, None).scripts] == [place.sitting.papers[0].code]
    (tmp_path / "mine.xlsx").write_bytes(marking_sheet(place.sitting))
    assert read_sheet(place, str(tmp_path / "mine.xlsx")).scripts == ()


def test_what_comes_of_marking_has_a_folder_of_its_own(place, tmp_path) -> None:
    assert marked_folder(place) == marked_folder(place) == place.path / "marked"
    assert (place.path / "marked").stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("stands", ["link", "file"])
def test_a_link_or_a_file_in_its_place_is_refused(place, tmp_path, stands: str) -> None:
    if stands == "link":
        (place.path / "marked").symlink_to(tmp_path)
    else:
        (place.path / "marked").write_text("mine", encoding="utf-8")
    with pytest.raises(NotFound, match="is not a folder of its own"):
        marked_folder(place)


def test_a_released_script_keeps_its_marks_whatever_the_program_finds_today(engine, place, monkeypatch) -> None:
    """A later version that reads an answer otherwise changes nothing of what its learner has."""
    code, first = place.sitting.code, place.sitting.papers[0]
    before = marks_of(engine, code, "first")[0]
    confirm(engine, code, [first.code], by="J. Marsh", at=WHEN)
    release(engine, code, [first.code], by="J. Marsh", at=WHEN)

    def stricter(*asked):
        found = mark_scripts(*asked)
        papers = tuple(
            replace(paper, marks=tuple(replace(mark, marks=0, how="unknown", why="Not read.") for mark in paper.marks))
            for paper in found.papers
        )
        return replace(found, papers=papers, attempts=papers)

    monkeypatch.setattr("courseware.workflows.marking.mark_scripts", stricter)
    _, marked = enter(engine, place)
    assert marked.papers[0] == marked.attempts[0] == before
    assert marked.papers[1].total == 0
    assert marks_of(engine, code, "first")[0] == before


def test_a_released_mark_that_is_decided_anew_comes_back_changed(engine, place) -> None:
    code, first = place.sitting.code, place.sitting.papers[0]
    confirm(engine, code, [first.code], by="J. Marsh", at=WHEN)
    release(engine, code, [first.code], by="J. Marsh", at=WHEN)
    label = figure(first)
    _, marked = enter(engine, place, typed=(Decision(code=first.code, label=label, marks=0, reason="Copied."),))
    assert next(mark.marks for mark in marked.papers[0].marks if mark.label == label) == 0
    [change] = script_states(engine, code)[0].changes
    assert (change.label, change.after, change.reason) == (label, 0, "Copied.")
