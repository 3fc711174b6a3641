"""Letters as typed: how they are read, and which a person must settle."""

from __future__ import annotations

import pytest

from courseware.marking.lettered import read_letters
from courseware.marking.part_kind import NotRead


@pytest.mark.parametrize(
    ("typed", "letters"),
    [
        ("B", "B"),
        ("b", "B"),
        ("A, C and D", "ACD"),
        ("a then b", "AB"),
        ("D>C>B", "DCB"),
        ("(c)", "C"),
        ("A → B", "AB"),
        ("A" + " " * 78 + "B", "AB"),  # eighty signs are read
    ],
)
def test_letters_are_read_in_the_order_in_which_they_stand(typed: str, letters: str) -> None:
    assert read_letters(typed, 4) == tuple(letters)


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        (" , ", "no letter stands here"),
        ("A" + " " * 79 + "B", "no letter stands here"),  # eighty-one are a note, no answer
        ("E", "`E` is not one of the letters A to D"),
        ("A2", "`A2` is not one of the letters A to D"),
        ("A and  E", "`A and E` is not one of the letters A to D"),
        ("yes", "`yes` is not one of the letters A to D"),  # the whole cell, not its `Y` alone
        ("ABA", "a letter stands twice"),
    ],
)
def test_letters_that_a_person_must_settle(typed: str, why: str) -> None:
    with pytest.raises(NotRead) as asked:
        read_letters(typed, 4)
    assert str(asked.value) == why
