"""Marks are kept with how each was reached; only what comes out otherwise is added."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sqlalchemy import select

from courseware.database.connection import reading
from courseware.database.errors import RecordRefuses
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.scripts import enter_scripts
from courseware.database.tables import MARK
from courseware.marking.marks import NamedSlip


@pytest.fixture
def desk(record, sitting, later):
    """Enters scripts and keeps marks, a minute after the last."""
    minute = iter(range(1, 100))

    class Desk:
        def enter(self, *scripts, role="first"):
            more = {"assessor": "J. Marsh", "role": role, "source": "sheet.xlsx", "at": later(next(minute))}
            return enter_scripts(record, sitting.code, scripts, (), **more)

        def keep(self, *marked, role="first") -> int:
            return keep_marks(record, sitting.code, marked, by="J. Marsh", role=role, at=later(next(minute)))

        def stand(self, role="first"):
            return marks_of(record, sitting.code, role)

    return Desk()


@pytest.mark.each_database
def test_marks_come_back_as_they_were_reached(desk, sitting, written, marked) -> None:
    slips = (
        NamedSlip(key="opening/width/1", says="The joint was left out"),
        NamedSlip(key="opening/width/2", says="…"),
    )
    paper = marked(
        sitting.papers[0], how="family", why="One of two slips.", slips=slips, written="900", comment="See me"
    )
    desk.enter(written(sitting.papers[0], "900"))
    assert desk.keep(paper) == len(paper.marks)
    assert desk.stand() == (paper,)


def test_marks_that_stand_already_add_nothing(record, desk, sitting, written, marked) -> None:
    paper = marked(sitting.papers[0])
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(paper)
    assert desk.keep(paper) == 0
    other = replace(paper, marks=(replace(paper.marks[0], marks=0, how="unknown"), *paper.marks[1:]))
    assert desk.keep(other) == 1
    assert desk.stand() == (other,)
    assert desk.keep(paper) == 1  # and back again: the newest stands
    assert desk.stand() == (paper,)
    with reading(record) as connection:
        assert len(connection.execute(select(MARK)).all()) == len(paper.marks) + 2


@pytest.mark.each_database
def test_a_mark_knows_the_script_it_was_given_for(record, desk, sitting, written, marked) -> None:
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(marked(sitting.papers[0]))
    desk.enter(written(sitting.papers[0], "910"))
    desk.keep(marked(sitting.papers[0], 2))
    with reading(record) as connection:
        assert sorted(set(connection.scalars(select(MARK.c.script)))) == [1, 2]


def test_marks_stand_in_the_order_of_the_paper(desk, sitting, written, marked) -> None:
    paper = marked(sitting.papers[0])
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(replace(paper, marks=paper.marks[::-1]))
    assert desk.stand() == (paper,)


def test_attempts_and_markers_are_apart(desk, sitting, written, marked) -> None:
    first, again = marked(sitting.papers[0]), marked(sitting.papers[0], 2, status="resubmitted")
    desk.enter(written(sitting.papers[0], "900"), written(sitting.papers[0], "910", status="resubmitted"))
    desk.enter(written(sitting.papers[0], "900"), role="second")
    desk.keep(first, again)
    assert desk.keep(marked(sitting.papers[0], 0), role="second") == len(first.marks)
    assert desk.stand() == (first, again)
    assert desk.stand("second") == (marked(sitting.papers[0], 0),)


def test_an_absent_learner_has_no_marks_whatever_was_kept(desk, sitting, written, marked) -> None:
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(marked(sitting.papers[0]))
    desk.enter(written(sitting.papers[0], status="absent"))
    [paper] = desk.stand()
    assert (paper.status, paper.marks) == ("absent", ())


def test_a_script_without_marks_is_not_among_the_marked(desk, sitting, written, marked) -> None:
    desk.enter(written(sitting.papers[0], "900"), written(sitting.papers[1], "900"))
    desk.keep(marked(sitting.papers[1]))
    assert [paper.code for paper in desk.stand()] == [sitting.papers[1].code]


def test_marks_without_a_script_are_refused(desk, sitting, marked) -> None:
    with pytest.raises(RecordRefuses, match="no script of the paper"):
        desk.keep(marked(sitting.papers[0]))
    assert desk.stand() == ()
