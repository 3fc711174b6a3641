"""One learner's portfolio index: each item with its criteria, page, assessor, date and whether it was assured."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import openpyxl
import pytest

from courseware.marking.marks import MarkedSitting
from courseware.papers.sitting import Sitting
from courseware.quality.criteria import Criterion, JobEvidence
from courseware.quality.criteria_map import criteria_map
from courseware.quality.portfolio import Known, Marker, items_of, portfolio_sheet, portfolio_workbook
from courseware.quality.sample_results import SampleResult
from courseware.settings.settings import DEFAULTS
from tests.quality.test_criteria_map import marked, observation, of_three


@pytest.fixture
def sitting(dealt) -> Sitting:
    """Three learners, two exercises on opening sizes."""
    return dealt("opening_sizes", exercises=2)


@pytest.fixture
def found(sitting):
    """A criterion of three parts over both exercises, and one that is seen at a job."""
    asked = of_three(sitting)
    at_work = Criterion(code="2.1", says="Lays to a line", parts=(), jobs=(JobEvidence(job="porch", line=""),))
    again = replace(asked, code="1.2")
    papers = (marked(sitting, 0, **{asked.parts[1].part: (0, "wrong")}),)
    seen = [observation(sitting, ("Joints", "good"))]
    return criteria_map([asked, again, at_work], [MarkedSitting(sitting=sitting, marked=papers)], seen)


def result(code: str, agreed: bool = True, **more: str) -> SampleResult:
    return SampleResult(code=code, plan="seed", agreed=agreed, by="A. Quinn", day="2026-02-01", **more)


def known(sitting, *results: SampleResult) -> Known:
    code = sitting.papers[0].code
    return Known(pages={(code, 2): 3}, marked_by={code: Marker(who="J. Marsh", day="2026-01-06")}, results=results)


def test_each_item_has_its_criteria_page_assessor_date_and_assurance(found, sitting) -> None:
    code = sitting.papers[0].code
    first, second, work = items_of(found, found.people[0], known(sitting, result(code)))
    assert first.says == f"Question 1 of paper {code}, sitting {sitting.code}"
    assert (first.criteria, first.page, first.standing) == (("1.1", "1.2"), "–", "2 of 4 parts secure")
    assert (second.page, second.standing) == ("3", "2 of 2 parts secure")
    assert (second.by.who, second.by.day, second.assured) == ("J. Marsh", "2026-01-06", "agreed, A. Quinn, 2026-02-01")
    assert (work.says, work.criteria, work.standing) == ("A porch, bay 2", ("2.1",), "pass")
    assert (work.page, work.by, work.assured) == ("1", Marker(who="J. Marsh", day="2026-02-03"), "–")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"agreed": False, "action": "x"}, "not agreed, action open, A. Quinn, 2026-02-01"),
        ({"agreed": False, "action": "x", "done": "2026-02-09"}, "not agreed, A. Quinn, 2026-02-01"),
    ],
)  # fmt: skip
def test_what_a_sample_found_is_told_with_what_is_open(found, sitting, more, says) -> None:
    code = sitting.papers[0].code
    assert items_of(found, found.people[0], known(sitting, result(code, **more)))[0].assured == says


def test_the_sheet_says_what_counted_for_each_criterion(found, sitting) -> None:
    person = found.people[0]
    items = items_of(found, person, known(sitting))
    sheet = portfolio_sheet(found, person, items, DEFAULTS, "2026-02-10", "")
    assert sheet.title == f"Portfolio index of {person.label}"
    assert portfolio_sheet(found, person, items, DEFAULTS, "2026-02-10", person.name).title.endswith(person.name)
    criteria = sheet.blocks[1].table.rows
    assert [row[0] for row in criteria] == ["1.1", "1.2", "2.1"]
    assert [row[2] for row in criteria] == ["not yet", "not yet", "secure"]
    assert criteria[0][1] == "Works out openings (all 3)"
    assert criteria[2][3] == "Job porch"
    nothing = portfolio_sheet(found, found.people[2], (), DEFAULTS, "2026-02-10", "")
    assert nothing.blocks[2].text == ("There is no evidence yet.",)


def test_the_workbook_has_the_same_rows(found, sitting) -> None:
    person = found.people[0]
    items = items_of(found, person, known(sitting))
    book = openpyxl.load_workbook(BytesIO(portfolio_workbook(found, person, items, "2026-02-10")))
    assert [row[1] for row in list(book["Evidence"].values)[1:]] == ["1.1, 1.2", "1.1, 1.2", "2.1"]
    assert len(list(book["Criteria"].values)) == 4
