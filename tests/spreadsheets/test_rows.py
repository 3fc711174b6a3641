"""Headings of a table as people write them: compared without case, blanks and stops, and shown safely."""

from __future__ import annotations

import pytest

from courseware.spreadsheets.rows import (
    TITLES_WITHIN,
    heading_key,
    headings_at,
    repeated_heading,
    shown_headings,
    unused_columns,
)


@pytest.mark.parametrize("written", ["learner ref", "Learner Ref.", "LEARNER_REF", " learner-ref ", "LearnerRef"])
def test_one_heading_however_it_is_written(written: str) -> None:
    assert heading_key(written) == "learnerref"


def test_letters_of_any_alphabet_count() -> None:
    assert heading_key("Straße Nr. 7") == heading_key("STRASSE NR 7") == "strassenr7"


@pytest.mark.parametrize(
    ("headings", "again"),
    [
        (["Name", "Ref", "NAME"], 2),
        (["Name", "n.a.m.e", "Name"], 1),
        (["", "", " "], None),  # empty columns repeat nothing
        (["a", "b"], None),
    ],
)
def test_the_first_heading_that_stood_before(headings: list[str], again: int | None) -> None:
    assert repeated_heading(headings) == again


def test_headings_are_shown_harmless_and_eight_of_many() -> None:
    assert shown_headings([" Name ", "", "\x1b[31m"]) == "`Name`, `<U+001B>[31m`"
    assert shown_headings([f"h{n}" for n in range(8)]).endswith("`h7`")
    assert shown_headings([f"h{n}" for n in range(9)]).endswith("`h7` …")


def test_columns_not_used_are_noted_where_they_have_a_heading() -> None:
    assert list(unused_columns(["Group"])) == ["Not used: the column `Group`."]
    assert list(unused_columns(["Group", "", "House"])) == ["Not used: the columns `Group`, `House`."]
    assert list(unused_columns(["", " "])) == []


@pytest.mark.parametrize(("above", "found"), [(0, 0), (TITLES_WITHIN - 1, TITLES_WITHIN - 1), (TITLES_WITHIN, 0)])
def test_the_wanted_headings_are_looked_for_among_the_first_rows(above: int, found: int) -> None:
    rows = [["title"]] * above + [["Name"], ["Name"]]
    assert headings_at(rows, lambda cells: "Name" in cells) == found
