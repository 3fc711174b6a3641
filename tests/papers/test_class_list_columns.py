"""Which column of a class list holds what, by its heading. How colleges head them: common practice, no source."""

from __future__ import annotations

import pytest

from courseware.papers.class_list_columns import find_columns


@pytest.mark.parametrize(
    ("headings", "name", "reference", "unused"),
    [
        ("Name", (0,), None, ()),
        ("ULN,Name", (1,), 0, ()),
        ("LEARNER NAME,Learner-Ref,Group", (0,), 1, (2,)),
        ("First name,Surname,Id", (0, 1), 2, ()),
        ("Surname,Forename", (1, 0), None, ()),  # first name first, however they stand
        ("First name,Surname,Name", (2,), None, (0, 1)),  # one column of names before two
        ("Learner,Full name", (1,), None, (0,)),  # the surest heading first
        ("No,Reference,Name", (2,), 1, (0,)),
        ("Name,,Notes", (0,), None, (1, 2)),
    ],
)
def test_headings_say_where_names_and_references_are(headings, name, reference, unused) -> None:
    found = find_columns(headings.split(","))
    assert found is not None
    assert (found.name, found.reference, found.unused, found.surname_first) == (name, reference, unused, False)


@pytest.mark.parametrize(
    "heading", ["Surname, Forename", "Last name, First name", "Name (surname forename)", "Name (last, first)"]
)
def test_a_heading_may_say_that_the_surname_stands_first(heading: str) -> None:
    found = find_columns(["Ref", heading])
    assert found is not None
    assert (found.name, found.reference, found.surname_first) == ((1,), 0, True)


def test_a_plain_name_is_surer_than_one_turned_round() -> None:
    found = find_columns(["Surname, Forename", "Name"])
    assert found is not None
    assert (found.name, found.surname_first) == ((1,), False)


@pytest.mark.parametrize(
    "headings", [[], ["", " "], ["Surname", "Ref"], ["First name"], ["Amara Okafor", "0012"], ["Names of learners"]]
)
def test_without_a_column_of_names_there_is_no_list(headings) -> None:
    assert find_columns(headings) is None
