"""Marks given by hand: rows are added, a person's newest stands, one on an answer that was changed does not."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from courseware.database.appeals import APPEALED
from courseware.database.errors import RecordRefuses
from courseware.database.given_marks import SETTLED, given_marks, hands, keep_given, marks_before
from courseware.database.history import history
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.learner_lookup import whose
from courseware.database.learners import delete_papers, export_learner, held
from courseware.database.scripts import enter_scripts
from courseware.marking.marks import Decision
from courseware.quality.marks_by_hand import HandMark


@pytest.fixture
def given(entered, sitting, later):
    """The entered script's first two parts, marked by a second person."""
    code, labels = sitting.papers[0].code, [part.label for part in sitting.papers[0].parts]
    return [
        HandMark(code=code, attempt=1, label=label, marks=1, note="seen", written=text)
        for label, text in zip(labels, ("1", "2"), strict=False)
    ]


def keep(record, sitting, marks, later, at: int, by: str = "P. Dunn", purpose: str = "second") -> int:
    return keep_given(record, sitting.code, marks, purpose, by=by, source="second.xlsx", at=later(at))


@pytest.mark.each_database
def test_a_persons_newest_mark_stands_and_the_same_once_more_adds_nothing(entered, sitting, given, later) -> None:
    assert keep(entered, sitting, given, later, 3) == 2
    assert keep(entered, sitting, given, later, 4) == 0
    again = HandMark(code=given[0].code, attempt=1, label=given[0].label, marks=0, note="looked again", written="1")
    assert keep(entered, sitting, [again], later, 5) == 1
    keep(entered, sitting, given, later, 6, by="R. Holt")
    stand = given_marks(entered, sitting.code, "second")
    assert [(one.by, one.marks) for one in stand] == [("P. Dunn", 0), ("P. Dunn", 1), ("R. Holt", 1), ("R. Holt", 1)]
    told = [event.what for event in history(entered, given[0].code) if event.by == "P. Dunn"]
    assert told == [f"second mark for {given[0].label}", f"second mark for {given[1].label}",
                    f"second mark for {given[0].label}"]  # fmt: skip


def test_marks_for_one_purpose_are_not_those_for_another(entered, sitting, given, later) -> None:
    keep(entered, sitting, given, later, 3, purpose="standard")
    assert given_marks(entered, sitting.code, "second") == ()
    assert len(given_marks(entered, sitting.code, "standard")) == 2


def test_a_mark_on_an_answer_that_is_another_now_does_not_stand(entered, sitting, given, later, marked) -> None:
    keep(entered, sitting, given, later, 3)
    paper = sitting.papers[0]
    typed = marked(paper, written="910")
    keep_marks(entered, sitting.code, [typed], by="J. Marsh", role="first", at=later(4))
    assert given_marks(entered, sitting.code, "second") == ()


def test_whose_hands_a_paper_went_through(entered, sitting, later, written) -> None:
    """Whoever typed its answers or decided a mark; not whoever ran the marking of the class."""
    first, other = sitting.papers[:2]
    decided = Decision(code=first.code, label=first.parts[0].label, marks=1, reason="method shown")
    more = {"role": "first", "source": "x.xlsx", "at": later(3)}
    enter_scripts(entered, sitting.code, [written(other, "1")], [], assessor="R. Holt", **more)
    enter_scripts(entered, sitting.code, [], [decided], assessor="P. Dunn", **more)
    assert hands(entered, sitting.code) == {first.code: ("J. Marsh", "P. Dunn"), other.code: ("R. Holt",)}
    assert hands(entered, sitting.code, "second") == {}


def test_marks_are_given_back_as_they_were_before_two_markers_settled(entered, sitting, later, marked) -> None:
    paper = sitting.papers[0]
    label = paper.parts[0].label
    settled = Decision(code=paper.code, label=label, marks=0, reason="agreed")
    more = {"assessor": "J. Marsh", "role": "first", "source": SETTLED, "at": later(5)}
    enter_scripts(entered, sitting.code, [], [settled], **more)
    keep_marks(entered, sitting.code, [marked(paper, 0)], by="J. Marsh", role="first", at=later(5))
    [now], [before] = marks_of(entered, sitting.code, "first"), marks_before(entered, sitting.code, [SETTLED])
    assert (now.marks[0].marks, before.marks[0].marks) == (0, 1)
    assert before.marks[1:] == now.marks[1:]  # nothing was settled there
    assert marks_before(entered, sitting.code, ["another.xlsx"]) == (now,)


def test_a_sheet_changes_no_mark_that_was_decided_on_appeal(entered, sitting, later) -> None:
    """It may have been written before the appeal; what somebody types with a reason of today may."""
    paper = sitting.papers[0]
    label, other = paper.parts[0].label, paper.parts[1].label
    on_appeal = Decision(code=paper.code, label=label, marks=1, reason="the working is sound")
    enter_scripts(
        entered, sitting.code, [], [on_appeal], assessor="R. Holt", role="first", source=APPEALED, at=later(5)
    )
    settled = {"assessor": "P. Dunn", "role": "first", "source": SETTLED}
    again = replace(on_appeal, marks=0, reason="agreed")
    with pytest.raises(
        RecordRefuses, match=f"the mark of {re.escape(label)} of {paper.code} was decided on appeal by R. Holt"
    ):
        enter_scripts(entered, sitting.code, [], [again], at=later(6), **settled)
    enter_scripts(entered, sitting.code, [], [replace(again, label=other)], at=later(7), **settled)
    done = enter_scripts(entered, sitting.code, [], [], typed_decisions=[again], at=later(8), **settled)
    assert [one.words for one in done.decided] == [again.words]


def test_a_deleted_learners_marks_go_and_an_export_has_them(entered, sitting, given, later) -> None:
    keep(entered, sitting, given, later, 3)
    assert len(export_learner(entered, given[0].code)["papers"][0]["marks_by_hand"]) == 2
    delete_papers(entered, whose(held(entered), given[0].code))
    assert given_marks(entered, sitting.code, "second") == ()


def test_a_sitting_that_is_not_there_is_refused(record, later) -> None:
    with pytest.raises(RecordRefuses, match="the record has no sitting"):
        keep_given(record, "AAAA-AAAA-A", [], "second", by="P. Dunn", source="", at=later(1))
