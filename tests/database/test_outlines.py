"""Sittings in outline: the same marks, learners and parts as one by one, by as many queries whatever there are."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from sqlalchemy import event

from courseware.database.errors import RecordFaulty
from courseware.database.given_marks import hands, hands_in
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.outlines import briefs, outlines
from courseware.database.scripts import enter_scripts
from courseware.database.sittings import sitting_of, take
from courseware.marking.marks import Mark, MarkedPaper
from courseware.papers.sitting_file import write_sitting
from tests.database.conftest import altered


@pytest.fixture
def filled(record, sitting, other_sitting, later, written, marked):
    """Two sittings; in the first a script marked twice over, one handed in again, and an absent learner."""
    take(record, other_sitting, write_sitting(other_sitting), at=later(1))
    first, second, third = sitting.papers

    def enter(of, paper, minute: int, *marks: Mark, status: str = "", **more: object) -> None:
        own = {"assessor": "J. Marsh", "role": "first", "source": "x.xlsx", "at": later(minute)}
        enter_scripts(record, of.code, [written(paper, "1", status=status)], [], **own)
        made = (
            MarkedPaper(code=paper.code, status=status, marks=marks) if marks else marked(paper, status=status, **more)
        )
        keep_marks(record, of.code, [made], by="J. Marsh", role="first", at=later(minute))

    label = first.parts[0].label
    enter(sitting, first, 2)
    enter(sitting, first, 3, Mark(label=label, marks=2, of=2, how="decided", why="Shown."))
    enter(sitting, second, 4, earned=0, how="unknown")
    enter(sitting, second, 5, status="resubmitted", earned=2)
    enter(sitting, third, 6, status="absent")
    enter(other_sitting, other_sitting.papers[0], 7)
    return record


@pytest.mark.each_database
def test_an_outline_has_what_is_there_one_by_one(filled, sitting, other_sitting) -> None:
    codes = [other_sitting.code, sitting.code]
    found = outlines(filled, [*codes, "AAAA"])
    assert [one.sitting.code for one in found] == codes
    for outline in found:
        whole = sitting_of(filled, outline.sitting.code)
        marks = marks_of(filled, whole.code, "first")
        assert [(one.code, one.status, one.total, one.of) for one in outline.marked] == [
            (one.code, one.status, one.total, one.of) for one in marks
        ]
        assert [{(m.label, m.marks, m.how) for m in one.marks} for one in outline.marked] == [
            {(m.label, m.marks, m.how) for m in one.marks} for one in marks
        ]
        assert (outline.sitting.title, outline.sitting.date, outline.sitting.group) == (
            whole.title, whole.date, whole.group,
        )  # fmt: skip
        assert (outline.sitting.banks, outline.sitting.settings) == (whole.banks, whole.settings)
        for own, paper in zip(outline.sitting.papers, whole.papers, strict=True):
            assert (own.code, own.learner) == (paper.code, paper.learner)
            assert [(e.topic, e.exercise) for e in own.exercises] == [(e.topic, e.exercise) for e in paper.exercises]
            assert [(p.label, p.name) for p in own.parts] == [(p.label, p.name) for p in paper.parts]


@pytest.mark.each_database
def test_a_brief_adds_up_the_last_script_of_each_paper(filled, sitting, other_sitting) -> None:
    first, second, _ = sitting.papers
    parts = len(first.parts)
    [brief, other] = briefs(filled, [sitting.code, other_sitting.code])
    assert (brief.title, brief.topics) == (sitting.title, tuple(dict.fromkeys(e.topic for e in first.exercises)))
    told = {code: (t.marks, t.of, t.decided, t.provisional) for code, (_, t) in brief.papers.items()}
    assert told == {first.code: (parts + 1, 2 * parts, 1, 0), second.code: (2 * parts, 2 * parts, 0, 0)}
    assert brief.papers[first.code][0] == first.learner.name
    assert list(other.papers) == [other_sitting.papers[0].code]


def test_what_waits_for_a_look_is_counted(record, sitting, later, written, marked) -> None:
    paper = sitting.papers[0]
    more = {"assessor": "J. Marsh", "role": "first", "source": "x.xlsx", "at": later(2)}
    enter_scripts(record, sitting.code, [written(paper, "1")], [], **more)
    keep_marks(record, sitting.code, [marked(paper, earned=0, how="asked")], by="J. M.", role="first", at=later(3))
    [(_, total)] = briefs(record, [sitting.code])[0].papers.values()
    assert total.provisional == len(paper.parts)


def asked(engine, ask: Callable[[], object]) -> int:
    """How many queries it takes."""
    counted = 0

    def count(*_: object) -> None:
        nonlocal counted
        counted += 1

    event.listen(engine, "before_cursor_execute", count)
    ask()
    event.remove(engine, "before_cursor_execute", count)
    return counted


@pytest.mark.parametrize("ask", [outlines, briefs, hands_in])
def test_more_papers_and_sittings_take_no_more_queries(filled, sitting, other_sitting, ask) -> None:
    one = asked(filled, lambda: ask(filled, [sitting.code]))
    assert asked(filled, lambda: ask(filled, [sitting.code, other_sitting.code])) == one
    assert one < 12


def test_hands_of_many_sittings_are_those_of_each(filled, sitting, other_sitting) -> None:
    each = {**hands(filled, sitting.code), **hands(filled, other_sitting.code)}
    assert hands_in(filled, [sitting.code, other_sitting.code]) == each


@pytest.mark.parametrize("ask", [outlines, briefs])
@pytest.mark.parametrize(
    "change", ["UPDATE paper SET issued = '[]'", "UPDATE paper SET issued = '{\"exercises\": [1]}'"]
)
def test_a_record_changed_by_hand_is_told(filled, sitting, tmp_path, ask, change: str) -> None:
    altered(tmp_path, change)
    with pytest.raises(RecordFaulty, match="changed by hand"):
        ask(filled, [sitting.code])
