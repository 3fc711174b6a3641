"""Dates as sheets print them: day, month in full, year; never a figure for a month, which two countries read two ways."""

from __future__ import annotations

import calendar

import pytest

from courseware.papers.dates import in_full


@pytest.mark.parametrize("month", range(1, 13))
def test_every_month_has_its_english_name(month: int) -> None:
    assert in_full(f"2026-{month:02d}-09") == f"9 {calendar.month_name[month]} 2026"


def test_a_sitting_without_a_date_prints_none() -> None:
    assert in_full("") == ""


@pytest.mark.parametrize("day", ["2026-02-30", "5 January 2026", "2026-13-01"])
def test_what_is_no_date_is_not_printed_as_one(day: str) -> None:
    with pytest.raises(ValueError, match=r"day|month|isoformat"):
        in_full(day)
