"""Samples: what a quality assurer asks of the record, what came of it, and how that weighs in the next."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from courseware.database.opening import open_record
from courseware.database.sample_results import results_of
from courseware.files.bank_files import NotFound
from courseware.quality.sample_results import open_actions
from courseware.settings.settings import DEFAULTS
from courseware.workflows.quality import close_action, enter_results, look_at_results, sample
from tests.workflows.filled_marks import filled_in


@pytest.fixture
def engine(place):
    engine = open_record("sqlite:///output/record.sqlite")
    yield engine
    engine.dispose()


def drawn(engine, place, day: str):
    more = {"seed": "seed", "pass_lines": [Fraction(1, 2)], "names": False, "out": Path("output"), "day": day}
    return sample(engine, [place.sitting.code], 2, DEFAULTS, **more)


def test_results_go_back_in_by_the_plans_own_workbook_and_weigh_in_the_next(engine, place) -> None:
    plan = drawn(engine, place, "2026-01-25").files[1]
    with pytest.raises(NotFound, match="has no results yet"):
        enter_results(engine, plan)
    code = filled_in(plan)
    would = look_at_results(engine, plan)
    assert results_of(engine) == ()
    entered = enter_results(engine, plan)
    assert would == entered
    assert (look_at_results(engine, plan).new, look_at_results(engine, plan).same) == ((), 1)
    assert [one.code for one in entered.new] == [code]
    assert open_actions(results_of(engine)) == entered.new
    again = drawn(engine, place, "2026-03-25").plan.picks
    assert again[0].paper.code == code
    assert again[0].reasons[0] == "an action of an earlier sample is open"
    assert all("earlier samples did not agree with J. Marsh on 1 paper" in pick.reasons for pick in again)


def test_an_action_is_closed_once_on_no_day_before_its_own(engine, place) -> None:
    plan = drawn(engine, place, "2026-01-25").files[1]
    code = filled_in(plan)
    [asked] = enter_results(engine, plan).new
    for day, why in (("2026-01-31", "was asked for on 2026-02-01"), ("soon", "is not a date")):
        with pytest.raises(NotFound, match=why):
            close_action(engine, code, asked.plan, day=day, note="")
    with pytest.raises(NotFound, match="the note has more than 300"):
        close_action(engine, code, asked.plan, day="2026-02-01", note="x" * 301)
    closed = close_action(engine, code, asked.plan, day="2026-02-01", note="marked again with P. Dunn")
    assert (closed.done, closed.note) == ("2026-02-01", "marked again with P. Dunn")
    assert open_actions(results_of(engine)) == ()
    with pytest.raises(NotFound, match="somebody may have closed it"):
        close_action(engine, code, asked.plan, day="2026-02-02", note="")
