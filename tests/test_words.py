"""Counts and lists as every message and sheet says them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.words import count, listed, of_one, plural


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


@pytest.mark.parametrize(
    ("unit", "one"),
    [
        ("bricks", "brick"), ("courses", "course"), ("pieces", "piece"), ("minutes", "minute"), ("batches", "batch"),
        ("boxes", "box"), ("passes", "pass"), ("bodies", "body"), ("ties", "tie"), ("halves", "half"), ("teeth", "tooth"),
        ("pence", "penny"), ("feet", "foot"), ("half bricks", "half brick"), ("bats of a hand", "bat of a hand"),
        ("Bricks", "Brick"), ("brick", "brick"), ("mm", "mm"), ("m²", "m²"), ("dB(A)", "dB(A)"), ("kg", "kg"), ("°", "°"),
        ("glass", "glass"), ("%", "%"), ("s", "s"), ("m/s", "m/s"), ("", ""),
    ],
)  # fmt: skip
def test_a_unit_beside_one_is_of_one(unit: str, one: str) -> None:
    assert of_one(unit) == one
