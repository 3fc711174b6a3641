"""How long each kind of data is kept, and what is past its time; nothing is deleted by looking."""

from __future__ import annotations

from datetime import date

import pytest
from sqlalchemy import select

from courseware.database.connection import reading
from courseware.database.errors import RecordRefuses
from courseware.database.kept_marks import keep_marks
from courseware.database.retention import keep, kept, past
from courseware.database.scripts import enter_scripts
from courseware.database.sittings import sitting_of
from courseware.database.tables import SETTING
from courseware.settings.settings import Retention


def test_everything_is_kept_until_a_time_is_set(record) -> None:
    assert kept(record) == {"names": None, "scripts": None, "marks": None, "papers": None}
    assert past(record, date(2099, 1, 1)) == ()


def test_a_setting_is_a_new_row_with_who_and_when(record, later) -> None:
    assert keep(record, "names", 12, by="Q. Lead", at=later(1))
    assert not keep(record, "names", 12, by="Q. Lead", at=later(2))
    assert keep(record, "names", None, by="Q. Lead", at=later(3))
    assert kept(record)["names"] is None
    with reading(record) as connection:
        assert connection.execute(select(SETTING.c.months, SETTING.c.by)).all() == [(12, "Q. Lead"), (None, "Q. Lead")]


def test_the_centres_settings_hold_until_the_record_says_otherwise(record, later) -> None:
    """A centre keeps names for 24 months by its file; what is set in the record itself, by name and date, stands over it."""
    centre = Retention(names=24, papers=6)
    assert kept(record, centre) == {"names": 24, "scripts": None, "marks": None, "papers": 6}
    assert {one.kind for one in past(record, date(2026, 12, 1), centre)} == {"papers"}
    more = {"by": "Q. Lead", "at": later(1), "centre": centre}
    assert not keep(record, "marks", None, **more)
    assert keep(record, "names", None, **more)
    assert keep(record, "papers", 6, **more)
    assert kept(record, Retention(names=1, papers=1)) == {"names": None, "scripts": None, "marks": None, "papers": 6}


@pytest.mark.parametrize(("kind", "months", "says"), [("photos", 12, "the kinds are names, scripts"), ("names", 0, "0 months is not a time"),
                                                      ("names", -3, "is not a time"), ("names", 99999, "from 1 to 1200")])  # fmt: skip
def test_what_is_no_kind_or_no_time_is_refused(record, later, kind, months, says) -> None:
    with pytest.raises(RecordRefuses, match=says):
        keep(record, kind, months, by="Q. Lead", at=later(1))


@pytest.mark.parametrize(
    ("today", "is_past"), [(date(2027, 1, 4), False), (date(2027, 1, 5), False), (date(2027, 1, 6), True)]
)
def test_the_last_day_is_the_day_of_the_sitting_so_many_months_on(record, later, today, is_past) -> None:
    keep(record, "papers", 12, by="Q. Lead", at=later(1))  # the sitting was on 5 January 2026
    found = past(record, today)
    assert bool(found) is is_past
    assert [(one.until, one.count) for one in found] == ([(date(2027, 1, 5), 3)] if is_past else [])


def test_months_end_with_the_month(dealt, record, later) -> None:
    from dataclasses import replace

    from courseware.database.sittings import take
    from courseware.papers.sitting_file import write_sitting

    last = replace(dealt(exercises=1, seed="a leap"), date="2023-08-31")
    take(record, last, write_sitting(last), at=later(1))
    keep(record, "papers", 6, by="Q. Lead", at=later(2))
    assert past(record, date(2024, 3, 1))[0].until == date(2024, 2, 29)


@pytest.mark.each_database
def test_each_kind_counts_the_papers_that_have_it(record, sitting, later, written, marked) -> None:
    scripts = [written(paper, "910") for paper in sitting.papers[:2]]
    more = {"assessor": "J. Marsh", "role": "first", "at": later(1)}
    enter_scripts(record, sitting.code, scripts, (), source="s.csv", **more)
    keep_marks(record, sitting.code, [marked(sitting.papers[0])], by="J. Marsh", role="first", at=later(1))
    for kind in kept(record):
        keep(record, kind, 1, by="Q. Lead", at=later(2))
    counts = {one.kind: one.count for one in past(record, date(2030, 1, 1))}
    assert counts == {"names": 3, "scripts": 2, "marks": 1, "papers": 3}
    assert sitting_of(record, sitting.code) == sitting
