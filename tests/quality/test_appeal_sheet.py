"""The outcome of an appeal, read from the re-mark's own workbook and told with both markings."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.quality.appeal_sheet import TypedOutcome, both, outcome_page, outcome_sheet, read_outcome
from courseware.spreadsheets.rows import TableFaulty
from courseware.spreadsheets.xlsx_out import safe_workbook
from tests.quality.conftest import by_hand, paper

BEFORE, AGAIN = paper("A", 4, 2, 1), by_hand("A", 4, 3, 1, by="R. Holt")
GOOD = {"outcome": "Changed", "date": "2026-02-09", "reason": "1b was right"}


def filled(**typed: object) -> bytes:
    book = openpyxl.load_workbook(BytesIO(safe_workbook([outcome_page()], "2026-02-01")))
    for row in book["Outcome"].iter_rows(min_row=2):
        row[1].value = typed.get(row[0].value)
    written = BytesIO()
    book.save(written)
    return written.getvalue()


def test_an_outcome_is_read_with_its_day_and_reason() -> None:
    assert read_outcome(filled(**GOOD), "re-mark.xlsx") == TypedOutcome(
        outcome="changed", day="2026-02-09", reason="1b was right"
    )


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"outcome": None}, "the outcome `` is none of these: stands, changed"),
        ({"outcome": "upheld"}, "re-mark.xlsx, outcome:1:1: the outcome `upheld` is none of these"),
        ({"date": "9/2/2026"}, "`9/2/2026` is not a date; write it as 2026-11-25"),
        ({"reason": None}, "the reason is missing"),
        ({"reason": "x" * 201}, "or has more than 200 plain characters"),
    ],
)  # fmt: skip
def test_what_is_missing_is_told(change, says) -> None:
    with pytest.raises(TableFaulty) as wrong:
        read_outcome(filled(**{**GOOD, **change}), "re-mark.xlsx")
    assert says in str(wrong.value)


@pytest.mark.parametrize("data", [b"", b"about,decision\n", b"PK\x03\x04"])
def test_another_workbook_is_refused(data: bytes) -> None:
    with pytest.raises(TableFaulty):
        read_outcome(data, "re-mark.xlsx")


@pytest.mark.parametrize(("outcome", "now"), [("changed", ["4", "3", "1"]), ("stands", ["4", "2", "1"])])
def test_both_markings_stand_side_by_side_with_what_stands_now(outcome, now) -> None:
    typed = TypedOutcome(outcome=outcome, day="2026-02-09", reason="1b was right")
    rows = list(both(BEFORE, AGAIN, typed))
    assert [row[2:4] for row in rows] == [("4 of 4", "4 of 4"), ("2 of 4", "3 of 4"), ("1 of 4", "1 of 4")]
    assert [row[4].split(" ")[0] for row in rows] == now
    sheet = outcome_sheet(BEFORE, AGAIN, typed, by="R. Holt", first="J. Marsh", name="", centre="")
    assert f"Total: 7 of 12 before, {sum(map(int, now))} of 12 now." in sheet.blocks[0].text


def test_an_appeal_withdrawn_has_no_re_mark() -> None:
    typed = TypedOutcome(outcome="withdrawn", day="2026-02-09", reason="the learner says so")
    assert [row[3] for row in both(BEFORE, (), typed)] == ["–"] * 3


def test_a_learners_name_is_taken_out() -> None:
    typed = TypedOutcome(outcome="stands", day="2026-02-09", reason="Amara Okafor agrees")
    sheet = outcome_sheet(BEFORE, AGAIN, typed, by="R. Holt", first="J. Marsh", name="Amara Okafor", centre="")
    assert "Reason: A agrees" in sheet.blocks[0].text[1]
