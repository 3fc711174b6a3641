"""The sheet and the workbook of the distance travelled: n and intervals are said, nobody is put in an order."""

from __future__ import annotations

from io import BytesIO

import pytest
from openpyxl import load_workbook

from courseware.class_report.distance_report import distance_report, distance_workbook
from courseware.reports.report import Report
from courseware.settings.settings import Settings
from tests.class_report.test_distance import WRONG, on, piers, travelled  # noqa: F401

QUESTIONS = {"1a": "How many bricks fit?"}


@pytest.fixture
def found(piers):  # noqa: F811
    asked = {"how": "asked", "marks": 0}
    return travelled(on(piers, "2026-09-07", [WRONG, WRONG, asked]), on(piers, "2027-06-07", [WRONG]))


def words(report: Report) -> str:
    return " ".join(line for block in report.blocks for line in (block.heading, *block.text))


def test_the_sheet_says_how_many_wrote_what_chance_may_do_and_what_is_not_settled(found) -> None:
    report = distance_report([(found, QUESTIONS)], Settings(name="Brookfield Trades College"))
    said = words(report)
    assert "5 papers at the start (sitting 2026-09-07), 5 papers at the end (2027-06-07); 5 learners wrote both" in said
    assert "With n = 5 chance has a large say" in said
    assert "1 answer still" in said or "1 answer of" in said
    assert report.centre == "Brookfield Trades College"
    assert [bool(block.picture) for block in report.blocks] == [False, True, True]


def test_each_pair_begins_a_side(found) -> None:
    report = distance_report([(found, QUESTIONS), (found, QUESTIONS)], Settings())
    assert [block.new_page for block in report.blocks] == [False, False, False, True, False, False]


def test_no_learner_s_name_reference_or_paper_stands_on_it(found) -> None:
    report = distance_report([(found, QUESTIONS)], Settings())
    data = distance_workbook([(found, QUESTIONS)], "2027-06-08")
    cells = [
        str(cell) for sheet in load_workbook(BytesIO(data)) for row in sheet.iter_rows(values_only=True) for cell in row
    ]
    text = " ".join([words(report), *(block.picture.alt for block in report.blocks if block.picture), *cells])
    for paper in found.start.papers:
        assert paper.code not in text
        assert paper.learner.name not in text


def test_the_workbook_has_figures_as_numbers(found) -> None:
    data = distance_workbook([(found, QUESTIONS)], "2027-06-08")
    assert data == distance_workbook([(found, QUESTIONS)], "2027-06-08")
    first = list(load_workbook(BytesIO(data))["Exercises"].iter_rows(values_only=True))[1]
    change = found.outcomes[0].change
    assert first[:3] == ("2026-09-07", "2027-06-07", f"1 {found.outcomes[0].start.topic}: How many bricks fit?")
    assert first[7:] == (5, round(change.value, 4), round(change.interval.low, 4), round(change.interval.high, 4))
    slips = list(load_workbook(BytesIO(data))["Slips"].iter_rows(values_only=True))
    assert slips[1][2:] == (found.slips[0].words, 2, 5, 1, 5)
