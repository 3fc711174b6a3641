"""Work observed at a job in the record: rows are added, the newest of a job and day stands, what it was judged by too."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from courseware.database.connection import writing
from courseware.database.errors import RecordFaulty, RecordRefuses
from courseware.database.history import history
from courseware.database.learner_lookup import whose
from courseware.database.learners import delete_papers, export_learner, held
from courseware.database.observations import keep_observation, observations_of, withdraw_observation
from courseware.jobs.observation import JudgedResult, MeasuredResult, Observation, Photo


@pytest.fixture
def seen(sitting) -> Observation:
    return Observation(
        code=sitting.papers[0].code,
        job="porch-panel",
        title="A framed panel beside a porch",
        bay="2",
        day="2026-02-03",
        by="J. Marsh",
        profile="Training bench (common practice, no source)",
        results=(
            MeasuredResult(what="Panel, width", target=Fraction(1321, 3), allowed=Fraction(3), measured=Fraction(441)),
            MeasuredResult(what="Panel, height", target=Fraction(665), allowed=Fraction(3), measured=None),
            JudgedResult(what="Joints", given="enough"),
        ),
        photos=(Photo(file="/work/photos/arch.jpg", sha256="ab" * 32, shows="corners of Amara Okafor's panel"),),
        comment="neat",
    )


def kept(record, one, at):
    return keep_observation(record, one, source="observation-sheet.xlsx", at=at)


def test_an_observation_comes_back_exactly_and_once_more_adds_nothing(record, seen, later) -> None:
    assert kept(record, seen, later(1)).is_new
    assert observations_of(record) == (seen,)
    assert not kept(record, seen, later(2)).is_new
    assert len(export_learner(record, seen.code)["papers"][0]["observations"]) == 1


@pytest.mark.each_database
@pytest.mark.each_database
def test_what_is_put_right_stands_and_what_stood_before_is_in_the_history(record, seen, later) -> None:
    kept(record, seen, later(1))
    full = replace(seen.results[1], measured=Fraction(700))
    done = kept(record, replace(seen, results=(seen.results[0], full, seen.results[2]), by="P. Dunn"), later(2))
    assert (done.is_new, done.before) == (True, seen)
    [stands] = observations_of(record, [seen.code])
    assert (stands.verdict, stands.by) == ("fail", "P. Dunn")
    events = [event for event in history(record, seen.code) if event.what.startswith("observed")]
    assert [(event.by, event.before.rpartition(": ")[2], event.after.rpartition(": ")[2]) for event in events] == [
        ("J. Marsh", "", "not all lines filled in"),
        ("P. Dunn", "not all lines filled in", "not yet"),
    ]


def test_another_day_is_another_observation(record, seen, later) -> None:
    kept(record, replace(seen, day="2026-03-03"), later(1))
    kept(record, seen, later(2))
    assert [one.day for one in observations_of(record)] == ["2026-02-03", "2026-03-03"]


def test_a_paper_that_the_record_has_not_is_refused(record, seen, later) -> None:
    with pytest.raises(RecordRefuses, match="the record has no paper"):
        kept(record, replace(seen, code="AAAA-AAAA-A"), later(1))
    assert observations_of(record) == ()


def test_a_deleted_learners_observations_go_and_their_photographs_are_told(record, seen, later, sitting) -> None:
    kept(record, seen, later(1))
    other = replace(seen, code=sitting.papers[1].code, photos=(), comment="helped by Amara Okafor")
    kept(record, other, later(2))
    gone = delete_papers(record, whose(held(record), "Amara Okafor"))
    assert gone.still == ("the photograph /work/photos/arch.jpg",)
    assert [one.comment for one in observations_of(record)] == ["helped by (a deleted learner)"]


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("results", "[]x"), ("results", "{}"), ("results", '[["a", "b", "c", "d"]]'), ("results", "[[1]]"),
        ("results", '[["Joints", "splendid"]]'), ("results", "[7]"), ("photos", "[[1, 2]]"), ("photos", "[3]"),
    ],
)  # fmt: skip
def test_a_row_changed_by_hand_is_told(record, seen, later, column: str, value: str) -> None:
    kept(record, seen, later(1))
    with writing(record) as connection:
        connection.exec_driver_sql(f'UPDATE observation SET "{column}" = ?', (value,))
    with pytest.raises(RecordFaulty, match="changed by hand"):
        observations_of(record)


@pytest.mark.each_database
def test_a_withdrawn_observation_counts_no_more_and_the_history_keeps_it(record, seen, later) -> None:
    kept(record, seen, later(1))
    withdraw_observation(record, seen, reason="the wrong learner", by="P. Dunn", at=later(2))
    assert observations_of(record) == ()
    *_, last = [event for event in history(record, seen.code) if event.what.startswith("observed")]
    assert (last.by, last.after.rpartition(": ")[2], last.reason) == ("P. Dunn", "withdrawn", "the wrong learner")
    assert last.before.rpartition(": ")[2] == "not all lines filled in"
    assert kept(record, seen, later(3)).is_new  # entered again after all
    assert observations_of(record) == (seen,)


def test_what_stands_otherwise_now_or_without_a_reason_is_not_withdrawn(record, seen, later) -> None:
    kept(record, seen, later(1))
    with pytest.raises(RecordRefuses, match="for a reason: write it"):
        withdraw_observation(record, seen, reason="", by="P. Dunn", at=later(2))
    kept(record, replace(seen, bay="3"), later(2))
    with pytest.raises(RecordRefuses, match="is another now, or withdrawn"):
        withdraw_observation(record, seen, reason="twice", by="P. Dunn", at=later(3))
