"""The criteria map as a sheet and as a workbook: what is missing stands first."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.marking.marks import MarkedSitting
from courseware.papers.sitting import Sitting
from courseware.quality.criteria import Criterion, JobEvidence
from courseware.quality.criteria_map import CriteriaMap, criteria_map
from courseware.quality.criteria_sheet import criteria_sheet, criteria_workbook, named
from courseware.settings.settings import DEFAULTS
from tests.quality.test_criteria_map import criterion, first_parts, marked, of_three


@pytest.fixture
def sitting(dealt) -> Sitting:
    """Three learners, two exercises on opening sizes."""
    return dealt("opening_sizes", exercises=2)


@pytest.fixture
def mapped(sitting) -> tuple[CriteriaMap, list[MarkedSitting]]:
    name = first_parts(sitting)[0]
    papers = (marked(sitting, 0), marked(sitting, 1, **{name: (0, "wrong")}))
    ordered = [MarkedSitting(sitting=sitting, marked=papers)]
    unserved = Criterion(code="=1+1", says="Works safely", parts=(), jobs=(JobEvidence(job="porch", line="Joints"),))
    return criteria_map([criterion(sitting, name), unserved], ordered), ordered


def test_the_sheet_tells_first_what_has_no_evidence(mapped) -> None:
    found, ordered = mapped
    sheet = criteria_sheet(found, ordered, DEFAULTS, "centre.yaml", "2026-01-06", {})
    assert sheet.blocks[1].heading == "Not secure yet"
    assert [row[2] for row in sheet.blocks[1].table.rows] == [
        "not secure for 2 learners of 3",
        "nobody was observed at its job yet",
    ]


def test_the_rule_and_what_counted_for_each_learner_are_told(sitting) -> None:
    asked = of_three(sitting)
    papers = (marked(sitting, 0), marked(sitting, 1, **{asked.parts[1].part: (0, "wrong")}))
    ordered = [MarkedSitting(sitting=sitting, marked=papers)]
    found = criteria_map([asked], ordered)
    text = "\n".join(
        line
        for block in criteria_sheet(found, ordered, DEFAULTS, "c.yaml", "2026-01-06", {}).blocks
        for line in block.text
    )
    first, second, third = (paper.code for paper in sitting.papers)
    assert "Secure with all 3." in text
    assert f"Secure: {first} (lines 1, 2, 3).\nNot yet: {second} (lines 1, 3).\nNothing yet: {third}." in text
    book = openpyxl.load_workbook(BytesIO(criteria_workbook(found, ordered, "c.yaml", "2026-01-06", {})))
    assert [row[2] for row in list(book["Map"].values)[1:]] == ["secure (3 of 3)", "not yet (2 of 3)", "nothing yet"]


def test_the_sheet_goes_by_codes_unless_names_are_given(mapped, sitting) -> None:
    found, ordered = mapped
    for names in ({}, named(found)):
        sheet = criteria_sheet(found, ordered, DEFAULTS, "centre.yaml", "2026-01-06", names)
        text = " ".join(line for block in sheet.blocks for line in block.text)
        first = sitting.papers[0]
        assert (first.learner.name in text, first.code in text) == (bool(names), not names)


def test_the_workbook_has_learners_by_criteria_and_every_piece_of_evidence(mapped, sitting) -> None:
    found, ordered = mapped
    book = openpyxl.load_workbook(BytesIO(criteria_workbook(found, ordered, "centre.yaml", "2026-01-06", {})))
    rows = list(book["Map"].values)
    assert rows[0] == ("learner", "papers", "1.1", "=1+1")
    assert book["Map"]["D1"].data_type == "s"
    assert [row[2] for row in rows[1:]] == ["secure", "not yet", "nothing yet"]
    evidence = list(book["Evidence"].values)
    assert [(row[3], row[6], row[9]) for row in evidence[1:3]] == [
        (sitting.papers[0].code, "1a", "secure"),
        (sitting.papers[1].code, "1a", "tried"),
    ]
    assert evidence[3][2] == "Job porch: Joints (not observed)"
    assert [row[3] for row in list(book["Not secure yet"].values)[1:]] == [
        "not yet",
        "nothing yet",
        "nobody was observed at its job yet",
    ]


def test_when_nothing_is_missing_the_sheet_says_so(sitting) -> None:
    ordered = [MarkedSitting(sitting=sitting, marked=tuple(marked(sitting, place) for place in range(3)))]
    found = criteria_map([criterion(sitting)], ordered)
    sheet = criteria_sheet(found, ordered, DEFAULTS, "centre.yaml", "2026-01-06", {})
    assert "Every criterion is secure for every learner." in sheet.blocks[1].text
