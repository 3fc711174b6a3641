"""What quality assurers found, in the record: entered once, changed by a new row, open until closed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.history import history
from courseware.database.sample_results import keep_results, results_of
from courseware.quality.sample_results import SampleResult, open_actions


@pytest.fixture
def found(sitting) -> SampleResult:
    return SampleResult(
        code=sitting.papers[0].code, plan="seed", agreed=False, by="A. Quinn", day="2026-02-01", action="Mark 2b again"
    )


@pytest.mark.each_database
def test_a_result_is_entered_once_and_its_action_closed_by_a_new_row(record, found, later) -> None:
    assert keep_results(record, [found], at=later(1)).new == (found,)
    assert keep_results(record, [found], at=later(2)).same == 1
    assert open_actions(results_of(record)) == (found,)
    closed = replace(found, done="2026-02-09")
    assert keep_results(record, [closed], at=later(3)).changed == (closed,)
    assert results_of(record) == (closed,)
    assert open_actions(results_of(record)) == ()
    told = [event.after for event in history(record, found.code) if event.what == "sampled in seed"]
    assert told == [
        "not agreed; action: Mark 2b again (open)",
        "not agreed; action: Mark 2b again (closed on 2026-02-09)",
    ]


def test_another_plan_is_another_result(record, found, later) -> None:
    keep_results(record, [found, replace(found, plan="later", day="2026-01-01")], at=later(1))
    assert [one.plan for one in results_of(record)] == ["later", "seed"]


def test_all_are_entered_or_none(record, found, later) -> None:
    with pytest.raises(RecordRefuses, match="the record has no paper AAAA-AAAA-A"):
        keep_results(record, [found, replace(found, code="AAAA-AAAA-A")], at=later(1))
    assert results_of(record) == ()
