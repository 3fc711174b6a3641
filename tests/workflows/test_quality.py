"""Samples: what a quality assurer asks of the record, what came of it, and how that weighs in the next."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import openpyxl
import pytest

from courseware.database.opening import open_record
from courseware.database.sample_results import results_of
from courseware.files.bank_files import NotFound
from courseware.quality.sample_results import open_actions
from courseware.settings.settings import DEFAULTS
from courseware.workflows.quality import enter_results, sample


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
    book = openpyxl.load_workbook(plan)
    sheet = book["Sample"]
    columns = {cell.value: cell.column for cell in sheet[1]}
    code = sheet.cell(2, columns["paper"]).value
    for heading, text in {"agreed": "no", "action": "Mark 1a again", "by": "A. Quinn", "date": "2026-02-01"}.items():
        sheet.cell(2, columns[heading], text)
    book.save(plan)
    entered = enter_results(engine, plan)
    assert [one.code for one in entered.new] == [code]
    assert open_actions(results_of(engine)) == entered.new
    again = drawn(engine, place, "2026-03-25").plan.picks
    assert again[0].paper.code == code
    assert again[0].reasons[0] == "an action of an earlier sample is open"
    assert all("earlier samples did not agree with J. Marsh on 1 paper" in pick.reasons for pick in again)
