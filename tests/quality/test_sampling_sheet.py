"""A sampling plan as it is handed to a quality assurer: seed, papers with their reasons, chances in plain words."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import openpyxl
import pytest

from courseware.quality.sampling import (
    SamplingPlan,
    sampling_plan,
)
from courseware.quality.sampling_sheet import HOW, chance_line, sampling_sheet, sampling_workbook
from courseware.settings.settings import DEFAULTS, Settings
from tests.quality.conftest import codes, marked


def test_chances_are_told_for_one_paper_and_for_5_and_10_percent() -> None:
    plan = sampling_plan([marked(number, number % 41) for number in range(60)], size=12, seed="QX")
    assert [chance.wrong for chance in plan.chances] == [1, 3, 6]
    assert chance_line(plan, plan.chances[0]) == (
        "If 1 of the 60 papers (2 %) carried an error, this sample would hold it about 2 times in 10 (20.0 %); "
        "to be 95 % sure, look at 57 papers."
    )
    everything = sampling_plan([marked(1, 4), marked(2, 5)], size=2, seed="QX")
    assert chance_line(everything, everything.chances[0]).endswith("would hold it for certain.")


def _plan(size: int = 12) -> SamplingPlan:
    return sampling_plan([marked(number, number % 41) for number in range(60)], size=size, seed="QXRT")


def test_the_sheet_prints_the_seed_every_paper_and_its_reasons() -> None:
    plan = _plan()
    sheet = sampling_sheet(plan, "2026-11-25", DEFAULTS, {})
    text = " ".join(line for block in sheet.blocks for line in block.text)
    assert "Made on 25 November 2026 with the seed QXRT" in text
    table = sheet.blocks[-1].table
    assert table is not None
    assert [row[0] for row in table.rows] == codes(plan)
    assert [row[4] for row in table.rows] == ["; ".join(pick.reasons) for pick in plan.picks]


def test_the_centres_name_stands_at_its_head_where_there_is_one() -> None:
    assert sampling_sheet(_plan(), "2026-11-25", DEFAULTS, {}).centre == ""
    assert sampling_sheet(_plan(), "2026-11-25", Settings(name="Brookfield College"), {}).centre == "Brookfield College"


def test_a_sample_larger_than_asked_says_so() -> None:
    text = " ".join(
        line for block in sampling_sheet(_plan(1), "2026-11-25", DEFAULTS, {}).blocks for line in block.text
    )
    assert "1 had been asked for" in text


def test_names_stand_on_it_only_where_they_are_given() -> None:
    plan = _plan()
    named = {plan.picks[0].paper.code: "=Amara Okafor"}  # invented
    book = openpyxl.load_workbook(BytesIO(sampling_workbook(plan, "2026-11-25", named)))
    cell = book["Sample"]["B2"]
    assert (cell.value, cell.data_type, cell.quotePrefix) == ("=Amara Okafor", "s", True)
    plain = openpyxl.load_workbook(BytesIO(sampling_workbook(plan, "2026-11-25", {})))
    assert [cell.value for cell in plain["Sample"][1]][:2] == ["paper", "sitting"]
    assert isinstance(plain["Sample"]["D2"].value, int)


def test_what_a_small_sample_has_no_room_for_is_told_and_no_paper_more_is_drawn() -> None:
    papers = [replace(marked(number, number * 10), topics=(f"Topic {number}",)) for number in range(4)]
    for size in (3, 4, 5):
        plan = sampling_plan(papers, size=size, seed="QX")
        assert len(plan.picks) == min(size, 4)
        assert bool(plan.not_shown) is (size < 4)
        said = " ".join(sampling_sheet(plan, "2026-01-05", DEFAULTS, {}).blocks[0].text)
        assert ("leaves no room to show" in said) is (size < 4)


@pytest.mark.parametrize(("open_papers", "told"), [(0, False), (1, True), (4, True)])
def test_provisional_marks_among_the_papers_are_told(open_papers: int, told: bool) -> None:
    papers = [replace(marked(n, n * 10), provisional=int(n < open_papers)) for n in range(4)]
    said = " ".join(sampling_sheet(sampling_plan(papers, size=4, seed="QX"), "2026-01-05", DEFAULTS, {}).blocks[0].text)
    assert (f"{open_papers} of the 4" in said) is told


@pytest.mark.parametrize(
    ("size", "said"),
    [
        (2, "less than once in 20 times (4.0 %)"), (3, "about 1 time in 10 (6.0 %)"),
        (25, "about 5 times in 10 (50.0 %)"), (47, "about 9 times in 10 (94.0 %)"), (48, "at least 19 times in 20 (96.0 %)"),
    ],
)  # fmt: skip
def test_a_chance_is_told_in_tens_and_at_its_ends_in_twentieths(size: int, said: str) -> None:
    """One wrong paper of fifty is in a sample of n with the chance n/50."""
    plan = sampling_plan([marked(number, number % 41) for number in range(50)], size=size, seed="QX")
    [one] = [chance for chance in plan.chances if chance.wrong == 1]
    assert said in chance_line(plan, one)


def test_the_workbook_says_what_the_sheet_says() -> None:
    plan = _plan()
    book = openpyxl.load_workbook(BytesIO(sampling_workbook(plan, "2026-11-25", {})))
    said = [row[0] for row in book["About"].iter_rows(min_row=2, values_only=True)]
    printed = [line for block in sampling_sheet(plan, "2026-11-25", DEFAULTS, {}).blocks for line in block.text]
    assert set(said) - {HOW} <= set(printed)
    assert [row[0] for row in book["Sample"].iter_rows(min_row=2, values_only=True)] == codes(plan)
