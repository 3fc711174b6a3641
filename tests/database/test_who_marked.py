"""Who marked a paper, and when, by the marks that stand."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from courseware.database.kept_marks import keep_marks
from courseware.database.scripts import enter_scripts
from courseware.database.who_marked import MarkedBy, who_marked


@pytest.fixture
def desk(record, sitting):
    """Enters scripts and keeps marks, by whom and when is told."""

    class Desk:
        def enter(self, *scripts, role="first"):
            at = datetime(2026, 1, 6, tzinfo=UTC)
            return enter_scripts(record, sitting.code, scripts, (), assessor="X", role=role, source="s", at=at)

        def keep(self, *marked, by: str, on: datetime, role="first") -> int:
            return keep_marks(record, sitting.code, marked, by=by, role=role, at=on)

        def who(self, role="first"):
            return who_marked(record, sitting.code, role)

    return Desk()


MONDAY, TUESDAY = datetime(2026, 1, 12, 15, tzinfo=UTC), datetime(2026, 1, 13, 9, tzinfo=UTC)


def test_papers_without_marks_are_not_among_them(desk, sitting, written, marked) -> None:
    assert desk.who() == {}
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(marked(sitting.papers[0]), by="J. Marsh", on=MONDAY)
    assert desk.who() == {sitting.papers[0].code: MarkedBy(names=("J. Marsh",), day=date(2026, 1, 12))}


def test_marking_again_without_a_change_changes_neither_name_nor_day(desk, sitting, written, marked) -> None:
    """So the same record gives the same feedback, byte for byte, whoever runs the program and when."""
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(marked(sitting.papers[0]), by="J. Marsh", on=MONDAY)
    before = desk.who()
    desk.keep(marked(sitting.papers[0]), by="A. Boateng", on=TUESDAY)
    assert desk.who() == before


@pytest.mark.each_database
def test_who_changed_a_mark_is_named_after_who_gave_the_others(desk, sitting, written, marked) -> None:
    paper = marked(sitting.papers[0])
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(paper, by="J. Marsh", on=MONDAY)
    changed = replace(paper, marks=(replace(paper.marks[0], marks=0, how="unknown"), *paper.marks[1:]))
    desk.keep(changed, by="A. Boateng", on=TUESDAY)
    assert desk.who()[paper.code] == MarkedBy(names=("J. Marsh", "A. Boateng"), day=date(2026, 1, 13))


def test_who_gave_no_mark_that_stands_is_not_named(desk, sitting, written, marked) -> None:
    desk.enter(written(sitting.papers[0], "900"))
    desk.keep(marked(sitting.papers[0]), by="J. Marsh", on=MONDAY)
    desk.keep(marked(sitting.papers[0], 0, how="unknown"), by="A. Boateng", on=TUESDAY)
    assert desk.who()[sitting.papers[0].code].names == ("A. Boateng",)


def test_the_day_is_that_of_utc(desk, sitting, written, marked) -> None:
    from datetime import timezone

    desk.enter(written(sitting.papers[0], "900"))
    late = datetime(2026, 1, 13, 0, 30, tzinfo=timezone(timedelta(hours=1)))
    desk.keep(marked(sitting.papers[0]), by="J. Marsh", on=late)
    assert desk.who()[sitting.papers[0].code].day == date(2026, 1, 12)


def test_the_second_marker_is_asked_for_apart(desk, sitting, written, marked) -> None:
    desk.enter(written(sitting.papers[0], "900"), role="second")
    desk.keep(marked(sitting.papers[0]), by="A. Boateng", on=TUESDAY, role="second")
    assert desk.who() == {}
    assert desk.who("second")[sitting.papers[0].code].names == ("A. Boateng",)
