"""A sampling plan's own workbook, filled in by a quality assurer and read back; what is still open."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import openpyxl
import pytest

from courseware.quality.sample_results import SampleResult, open_actions, read_results
from courseware.quality.sampling import sampling_plan
from courseware.quality.sampling_sheet import sampling_workbook
from courseware.spreadsheets.rows import TableFaulty
from tests.quality.conftest import codes, marked

PLAN = sampling_plan([marked(number, number) for number in range(6)], size=3, seed="seed")
CODES = codes(PLAN)
GOOD = {"agreed": "yes", "by": "A. Quinn", "date": "2026-02-01"}  # invented


def filled(*rows: dict[str, object]) -> bytes:
    book = openpyxl.load_workbook(BytesIO(sampling_workbook(PLAN, "2026-01-25", {})))
    sheet = book["Sample"]
    headings = [cell.value for cell in sheet[1]]
    for line, row in enumerate(rows, 2):
        for heading, value in row.items():
            sheet.cell(line, headings.index(heading) + 1, value)
    written = BytesIO()
    book.save(written)
    return written.getvalue()


def test_a_row_filled_in_is_a_result_and_others_are_passed_over() -> None:
    bad = {"agreed": "No", "by": "A. Quinn", "date": "2026-02-01", "action": "Mark 2b again", "note": "see working"}
    found = read_results(filled(GOOD, {}, bad), "plan.xlsx", set(CODES))
    assert found == (
        SampleResult(code=CODES[0], plan="seed", agreed=True, by="A. Quinn", day="2026-02-01"),
        SampleResult(code=CODES[2], plan="seed", agreed=False, by="A. Quinn", day="2026-02-01", action="Mark 2b again",
                     note="see working"),
    )  # fmt: skip
    assert open_actions(found) == (found[1],)


def test_an_action_is_open_until_the_day_it_is_closed_is_written() -> None:
    one = SampleResult(code="A", plan="p", agreed=True, by="A. Quinn", day="2026-02-01", action="Tell R. Holt")
    later = replace(one, code="B", day="2026-01-01")
    assert open_actions([one, later, replace(one, done="2026-02-09"), replace(one, action="")]) == (later, one)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"agreed": "perhaps"}, "plan.xlsx:2:1: `perhaps` under `agreed` is neither yes nor no"),
        ({"agreed": None}, "`agreed` is blank"),
        ({"agreed": "no"}, "a mark that is not agreed needs an action"),
        ({"by": None}, "`by` is blank"),
        ({"by": "x" * 81}, "or more than 80 plain characters"),
        ({"date": "1/2/2026"}, "`1/2/2026` under `date` is not a date; write it as 2026-11-25"),
        ({"date": None}, "under `date` is not a date"),
        ({"action closed": "soon", "action": "x"}, "`soon` under `action closed` is not a date"),
        ({"action closed": "2026-02-02"}, "an action is closed that is not written down"),
        ({"paper": "ZZZZ-ZZZZ-Z"}, "`ZZZZ-ZZZZ-Z` is not the code of a paper in the record"),
        ({"note": "a\u202eb"}, "`note` has more than 300 characters, or some that do not show"),
        ({"plan": "x" * 81}, "the plan's seed was changed"),
    ],
)  # fmt: skip
def test_what_cannot_be_entered_is_told_by_its_row(change, says) -> None:
    with pytest.raises(TableFaulty) as wrong:
        read_results(filled({**GOOD, **change}), "plan.xlsx", set(CODES))
    assert says in str(wrong.value)


def test_a_paper_stands_once_and_another_workbook_is_refused() -> None:
    with pytest.raises(TableFaulty, match="stands on an earlier row too"):
        read_results(filled(GOOD, {**GOOD, "paper": CODES[0]}), "plan.xlsx", set(CODES))
    with pytest.raises(TableFaulty, match="this is not a sampling plan"):
        read_results(b"paper,agreed\n", "plan.csv", set(CODES))
