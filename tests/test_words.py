"""Counts and lists as every message and sheet says them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.words import count, listed, plural


@pytest.mark.parametrize(
    ("n", "said"),
    [(0, "0 papers"), (1, "1 paper"), (2, "2 papers"), (Fraction(1), "1 paper"), (Fraction(1, 2), "1/2 papers"), (-1, "-1 papers")],
)  # fmt: skip
def test_one_alone_is_singular(n, said: str) -> None:
    assert count(n, "paper") == said


def test_a_word_of_its_own_for_many() -> None:
    assert [count(n, "copy", "copies") for n in (0, 1, 2)] == ["0 copies", "1 copy", "2 copies"]
    assert [plural(n, "is", "are") for n in (0, 1, 2)] == ["are", "is", "are"]


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ([], ""),
        (["sand"], "sand"),
        (["sand", "lime"], "sand and lime"),
        (("bricks", "sand", "lime"), "bricks, sand and lime"),
    ],
)
def test_names_one_after_another(names, said: str) -> None:
    assert listed(names) == said
    assert listed(names, "or") == said.replace(" and ", " or ")
