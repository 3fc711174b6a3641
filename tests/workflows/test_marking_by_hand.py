"""A second marker at the screen: the same scripts, marks and settled differences as by their sheets."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from pathlib import Path

import openpyxl
import pytest

from courseware.database.given_marks import given_marks
from courseware.database.history import history
from courseware.database.kept_decisions import decisions_to_keep
from courseware.database.opening import open_record
from courseware.settings.settings import Settings
from courseware.workflows.mark_sitting import MarkOptions, mark_sitting
from courseware.workflows.marking_by_hand import (
    CannotSettle,
    FirstMarksHidden,
    beside_marks,
    hand_grid,
    keep_hand_mark,
    read_hand_mark,
    see_first_marks,
    settle,
    settled_marks,
)
from courseware.workflows.marking_grid import CellRefused
from courseware.workflows.quality import compare_markers
from courseware.workflows.second_marking import enter_second, write_second_sheet
from tests.marked_sitting import figure
from tests.workflows.filled_marks import fill

PROGRAM = Settings(first_marker="program")
NOW = datetime(2026, 1, 6, 9, tzinfo=UTC)


@pytest.fixture
def engine(place):
    engine = open_record("sqlite:///output/record.sqlite")
    yield engine
    engine.dispose()


def mark_all(engine, place, lower=(), marker="P. Dunn") -> None:
    """Gives every part what it is worth, and nothing to those of `lower`: codes and parts."""
    for row in hand_grid(engine, place, marker).rows:
        for part in row.script.parts:
            key = (row.script.code, row.script.attempt, part.label)
            text = "0 not shown" if (row.script.code, part.label) in lower else str(part.of)
            assert keep_hand_mark(engine, place, key, text, marker=marker, at=NOW).saved == "entered"


def test_typed_on_the_screen_or_filled_in_on_a_sheet_the_record_has_the_same_marks(engine, place) -> None:
    shutil.copy("output/record.sqlite", "by-sheet.sqlite")
    blank, _ = write_second_sheet(engine, place)
    mark_all(engine, place)
    by_sheet = open_record("sqlite:///by-sheet.sqlite")
    enter_second(by_sheet, place, fill(blank, "filled.xlsx"), PROGRAM, marker="P. Dunn", names=False)
    marks = [given_marks(one, place.sitting.code, "second") for one in (engine, by_sheet)]
    assert marks[0] == marks[1] != ()
    found = [compare_markers(one, place.sitting.code, PROGRAM) for one in (engine, by_sheet)]
    assert found[0] == found[1]
    by_sheet.dispose()


def test_the_grid_has_what_is_written_and_ones_own_marks_alone(engine, place) -> None:
    first, second, _ = place.sitting.papers
    rows = hand_grid(engine, place, "P. Dunn").rows
    assert [row.script.code for row in rows] == [first.code, second.code], "the third was absent"
    mark_all(engine, place)
    assert [row.left for row in hand_grid(engine, place, "p dunn").rows] == [0, 0]
    assert all(row.given == {} for row in hand_grid(engine, place, "R. Holt").rows)
    part = next(
        one for one in beside_marks(engine, place, second.code, 1, marker="R. Holt") if one.label == figure(first)
    )
    assert (part.part.written, part.given) == ("7", "")


def test_who_marked_first_sees_none_of_those_scripts_and_is_refused(engine, place) -> None:
    found = hand_grid(engine, place, "j marsh")
    code = place.sitting.papers[0].code
    assert (found.rows, code in found.own) == ((), True)
    assert beside_marks(engine, place, code, 1, marker="J. Marsh") == ()
    with pytest.raises(CellRefused, match="first; the second marker is another person"):
        keep_hand_mark(engine, place, (code, 1, figure(place.sitting.papers[0])), "1", marker="J. Marsh", at=NOW)


@pytest.mark.parametrize(
    ("text", "why"),
    [("", "type a dash and the reason"), ("-", "taken back with its reason"), ("no", "`no` is not a mark"), ("99", "whole marks from 0 to"), ("1 \u200b", "do not show"), ("1 " + "x" * 301, "more than 300")],
)  # fmt: skip
def test_a_mark_that_cannot_be_says_why(engine, place, text: str, why: str) -> None:
    paper = place.sitting.papers[0]
    with pytest.raises(CellRefused, match=why):
        read_hand_mark(engine, place, (paper.code, 1, figure(paper)), text, marker="P. Dunn")


def test_a_mark_may_have_a_note_and_the_newest_stands(engine, place) -> None:
    paper = place.sitting.papers[0]
    key = (paper.code, 1, figure(paper))
    saved = [
        keep_hand_mark(engine, place, key, text, marker="P. Dunn", at=NOW) for text in ("1", "0  no unit", "0 no unit")
    ]
    assert [(one.saved, one.stands) for one in saved] == [
        ("entered", "1"),
        ("entered", "0 no unit"),
        ("same", "0 no unit"),
    ]
    [stands] = given_marks(engine, place.sitting.code, "second")
    assert (stands.marks, stands.note) == (0, "no unit")


def test_a_mark_is_taken_back_with_its_reason_by_screen_or_by_sheet_and_may_be_given_again(engine, place) -> None:
    paper, code = place.sitting.papers[0], place.sitting.code
    key = (paper.code, 1, figure(paper))
    blank, _ = write_second_sheet(engine, place)
    typed = ["2", "- wrong script", "– twice does nothing more", "0"]
    told = [keep_hand_mark(engine, place, key, text, marker="P. Dunn", at=NOW) for text in typed[:1]]
    shutil.copy("output/record.sqlite", "by-sheet.sqlite")
    told += [keep_hand_mark(engine, place, key, text, marker="p dunn", at=NOW) for text in typed[1:3]]
    assert [(one.saved, one.stands) for one in told] == [("entered", "2"), ("entered", ""), ("same", "")]
    assert given_marks(engine, code, "second") == ()
    assert hand_grid(engine, place, "P. Dunn").rows[0].given == {}
    book = openpyxl.load_workbook(blank)
    for row in book["Marks"].iter_rows(min_row=2):
        if (row[0].value, row[2].value) == (key[0], key[2]):
            row[8].value, row[9].value = "-", "wrong script"
    book.save("taken-back.xlsx")
    by_sheet = open_record("sqlite:///by-sheet.sqlite")
    done = [
        enter_second(by_sheet, place, Path("taken-back.xlsx"), PROGRAM, marker="p dunn", names=False) for _ in range(2)
    ]
    assert [one.added for one in done] == [1, 0]
    events = [
        [(one.by, one.what, one.after, one.reason) for one in history(a, paper.code) if "second" in one.what]
        for a in (engine, by_sheet)
    ]
    by_sheet.dispose()
    assert events[0] == events[1] == [
        ("P. Dunn", f"second mark for {key[2]}", "2 marks", ""),
        ("p dunn", f"second mark for {key[2]}", "2 marks taken back", "wrong script"),
    ]  # fmt: skip
    assert keep_hand_mark(engine, place, key, typed[3], marker="P. Dunn", at=NOW).stands == "0"
    assert [one.marks for one in given_marks(engine, code, "second")] == [0]


def test_who_gave_second_marks_is_not_shown_the_first_marks_of_papers_that_others_marked(engine, place) -> None:
    paper = place.sitting.papers[0]
    for who in ("J. Marsh", "P. Dunn"):
        see_first_marks(engine, place, who)
    keep_hand_mark(engine, place, (paper.code, 1, figure(paper)), "1", marker="P. Dunn", at=NOW)
    for code in ("", paper.code):
        see_first_marks(engine, place, "J. Marsh", code)
        with pytest.raises(FirstMarksHidden, match="second marker, who is not shown the first marks"):
            see_first_marks(engine, place, "p dunn", code)


def test_settled_on_the_screen_or_on_a_sheet_the_decision_is_the_same_and_agreement_stays(engine, place, heard) -> None:
    second, label = place.sitting.papers[1], figure(place.sitting.papers[0])
    mark_all(engine, place, lower=[(second.code, label)])
    before = compare_markers(engine, place.sitting.code, PROGRAM)
    assert [(one.code, one.label) for one in before.differences] == [(second.code, label)]
    shutil.copy("output/record.sqlite", "by-sheet.sqlite")
    with pytest.raises(CannotSettle, match="needs its reason"):
        settle(engine, place, PROGRAM, (second.code, label, "0", " "), by="R. Holt", at=NOW)
    with pytest.raises(CannotSettle, match="that two marked differently"):
        settle(engine, place, PROGRAM, (place.sitting.papers[0].code, label, "0", "so"), by="R. Holt", at=NOW)
    settle(engine, place, PROGRAM, (second.code, label, "0", "No working on the paper"), by="R. Holt", at=NOW)
    assert settled_marks(engine, place)[second.code, 1, label].decision.reason == "No working on the paper"
    after = compare_markers(engine, place.sitting.code, PROGRAM)
    assert (after.agreement, after.differences) == (before.agreement, before.differences)
    by_sheet = open_record("sqlite:///by-sheet.sqlite")
    done = enter_second(
        by_sheet,
        place,
        fill(write_second_sheet(by_sheet, place)[0], "again.xlsx", {(second.code, label): 0}),
        PROGRAM,
        marker="P. Dunn",
        names=False,
    )
    book = openpyxl.load_workbook(done.files[1])
    book["Decisions"]["C2"], book["Decisions"]["D2"] = 0, "No working on the paper"
    book.save("agreed.xlsx")
    options = MarkOptions(assessor="R. Holt", record=str(Path("by-sheet.sqlite").resolve()))
    mark_sitting(place, "agreed.xlsx", (), options, heard, when_marked=lambda *_: None)
    assert decisions_to_keep(engine, place.sitting.code) == decisions_to_keep(by_sheet, place.sitting.code)
    by_sheet.dispose()
