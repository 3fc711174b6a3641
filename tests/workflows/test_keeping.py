"""What a centre keeps: asked for with nothing there, and sizes and times as they are typed."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import URL

from courseware.files.bank_files import NotFound
from courseware.settings.settings import Retention
from courseware.workflows.keeping import (
    kept_sittings,
    kept_times,
    marked_papers,
    months_typed,
    papers_of,
    past_then,
    register_shown,
    size_asked,
)


@pytest.fixture
def nothing(tmp_path: Path) -> URL:
    return URL.create("sqlite", database=str(tmp_path / "record.sqlite"))


def test_where_nothing_is_kept_looking_makes_nothing(nothing: URL, tmp_path: Path) -> None:
    centre, today = Retention(names=36), date(2026, 12, 1)
    assert kept_sittings(nothing) == ()
    assert marked_papers(nothing, ["KKKKKKKK"]) == 0
    assert [(one.kind, one.months) for one in kept_times(nothing, centre, today)][:2] == [
        ("names", 36),
        ("scripts", None),
    ]
    assert past_then(nothing, centre, today, "names", 1) == ()
    for refused in (lambda: register_shown(nothing, "K"), lambda: papers_of(nothing, "K")):
        with pytest.raises(NotFound):
            refused()
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("typed", "marked", "size"),
    [("4", 20, 4), ("10 %", 20, 2), ("10%", 21, 3), ("100%", 7, 7), ("12.5 %", 8, 1), ("10 %", 0, 0)],
)
def test_a_sample_is_a_number_or_a_share_and_a_part_of_a_paper_counts_as_one(
    typed: str, marked: int, size: int
) -> None:
    assert size_asked(typed, marked) == size


@pytest.mark.parametrize(
    ("typed", "months"), [("1", 1), (" 36 ", 36), ("1200", 1200), ("always", None), ("Always", None)]
)
def test_months_are_a_number_or_always(typed: str, months: int | None) -> None:
    assert months_typed(typed) == months


@pytest.mark.parametrize("typed", ["", "0", "1201", "12000000000", "1.5", "١٢", "ever"])
def test_anything_else_is_no_time(typed: str) -> None:
    with pytest.raises(NotFound):
        months_typed(typed)
