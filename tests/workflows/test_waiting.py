"""What waits for a look, in the order of the papers; and what is decided of it, on the answer that was looked at."""

from __future__ import annotations

from datetime import timedelta

import pytest

from courseware.database.opening import open_record
from courseware.database.scripts import decisions_of
from courseware.database.typed_cells import TypedCell
from courseware.workflows.marking import marked_as_it_stands
from courseware.workflows.marking_grid import keep_cell
from courseware.workflows.waiting import CannotDecide, Look, decide, waiting, waiting_answer
from tests.marked_sitting import WHEN, figure, script

LATER = WHEN + timedelta(hours=1)


@pytest.fixture
def engine(place):
    """The record of the marked sitting, in which the first learner's first figure is now 7.5, and the next is a word."""
    opened = open_record("sqlite:///output/record.sqlite")
    first = place.sitting.papers[0]
    written = script(first, 2).cells
    numbers = [part.label for part in first.parts if part.kind == "number"][:2]
    for label, text in zip(numbers, ("7.5", "see back"), strict=True):
        one = TypedCell(code=first.code, attempt=1, label=label, text=text, seen=written[label])
        keep_cell(opened, place, one, assessor="J. Marsh", at=LATER)
    yield opened
    opened.dispose()


def look(place, **more) -> Look:
    first = place.sitting.papers[0]
    return Look(**{"code": first.code, "label": figure(first), "written": "7.5", **more})


def mark_now(engine, place, label: str):
    marked = marked_as_it_stands(engine, place, "first")
    return next(mark for mark in marked.papers[0].marks if mark.label == label)


def test_what_waits_comes_in_the_order_of_the_papers(engine, place) -> None:
    first = place.sitting.papers[0]
    found = waiting(engine, place)
    assert [(one.code, one.written) for one in found[:2]] == [(first.code, "7.5"), (first.code, "see back")]
    assert "See the working" in found[0].why
    assert found[1].why == "it does not read as one figure"
    assert {one.name for one in found[:2]} == {first.learner.name}


def test_an_answer_comes_with_all_that_is_needed_to_decide_it(engine, place) -> None:
    first = place.sitting.papers[0]
    label = figure(first)
    answer = waiting_answer(engine, place, first.code, label)
    assert (answer.name, answer.part.mark.written, answer.decided) == (first.learner.name, "7.5", None)
    assert answer.lines
    assert all(line.earns for line in answer.lines)
    later = waiting_answer(engine, place, first.code, first.parts[-1].label)
    assert {part.number for part in later.earlier} == {later.part.number}
    assert waiting_answer(engine, place, first.code, "9z") is None
    assert waiting_answer(engine, place, "AAAA", label) is None


def test_lines_seen_in_the_working_are_the_marks_and_the_reason(engine, place) -> None:
    first = place.sitting.papers[0]
    label = figure(first)
    [line, *_] = waiting_answer(engine, place, first.code, label).lines
    decide(engine, place, look(place, seen=(0,)), assessor="A. Boateng", at=LATER)
    mark = mark_now(engine, place, label)
    assert (mark.how, mark.marks) == ("decided", int(line.earns[1:]))
    assert mark.why.startswith(f"Seen in the working: {line.say}: {line.figure}. (Worked out: ")
    assert label not in [one.label for one in waiting(engine, place) if one.code == first.code]
    assert waiting_answer(engine, place, first.code, label).decided.reason.startswith("Seen in the working")


def test_marks_with_a_reason_stand_and_so_does_a_mark_that_is_only_commented(engine, place) -> None:
    label = figure(place.sitting.papers[0])
    decide(engine, place, look(place, comment="Show the rule"), assessor="J. Marsh", at=LATER)
    assert (mark_now(engine, place, label).how, mark_now(engine, place, label).comment) == ("unknown", "Show the rule")
    decide(engine, place, look(place, marks="1", reason="Rule shown"), assessor="J. Marsh", at=LATER)
    mark = mark_now(engine, place, label)
    assert (mark.how, mark.marks, mark.comment) == ("decided", 1, "")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"written": "7"}, "was `7` when you looked at it, now it is `7.5`: look again"),
        ({"marks": "1"}, "needs its reason"),
        ({"marks": "99", "reason": "x"}, "is not a mark in whole marks"),
        ({"marks": "0", "reason": "x", "seen": (0,)}, "the lines seen earn 1, and 0 stands"),
        ({"seen": (99,)}, "lines that earn marks; load the page again"),
        ({"code": "AAAA", "marks": "1", "reason": "x"}, "is not the code of a paper"),
        ({"label": "paper"}, "of a whole paper, write no mark"),
    ],
)
def test_what_cannot_stand_is_told_and_nothing_is_entered(engine, place, more, says) -> None:
    before = decisions_of(engine, place.sitting.code, "first")
    written = {"marks": "1", "reason": "Rule shown"} if more == {"written": "7"} else {}
    with pytest.raises(CannotDecide, match=says):
        decide(engine, place, look(place, **{**written, **more}), assessor="J. Marsh", at=LATER)
    assert decisions_of(engine, place.sitting.code, "first") == before


def test_the_decision_is_kept_beside_the_sitting_as_well(engine, place) -> None:
    """So that a record made again has it."""
    decide(engine, place, look(place, marks="1", reason="Rule shown"), assessor="J. Marsh", at=LATER)
    assert (place.path / "for-tutor" / "decisions.xlsx").is_file()
