"""The space of variants: counted like the wheels of a counter, the same on every machine."""

from __future__ import annotations

from fractions import Fraction
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.banks import Space, prove, raw_size
from courseware.banks.space import given_at, walk

TWO = {"bricks": "2 to 3", "courses": "3 to 9 by 3"}


def test_the_last_given_turns_fastest(exercise) -> None:
    counted = [tuple(found.values()) for found in walk(exercise(given=TWO))]
    assert counted == [(2, 3), (2, 6), (2, 9), (3, 3), (3, 6), (3, 9)]


@pytest.mark.parametrize(
    ("written", "size"),
    [({}, 1), ({"bricks": "7"}, 1), (TWO, 6), ({**TWO, "side": ["left", "right"]}, 12), ({"bricks": "2.5 to 6 by 0.5"}, 8)],
)  # fmt: skip
def test_the_raw_space_is_the_product_of_the_givens(exercise, written: dict[str, object], size: int) -> None:
    sound = exercise(given=written, pose="A pier.", parts=[number("pier(4)")])
    assert raw_size(sound) == size == len(list(walk(sound)))


def number(answer: str) -> dict[str, object]:
    return {
        "name": "length",
        "ask": "How long?",
        "answer": answer,
        "marks": 1,
        "working": [{"say": "So", "value": answer}],
    }


@settings(deadline=None, max_examples=30)
@given(st.lists(st.integers(1, 5), min_size=1, max_size=4), st.data())
def test_an_index_finds_its_variant_and_back(exercise, sizes: list[int], data: st.DataObject) -> None:
    names = [f"g{place}" for place in range(len(sizes))]
    written = {name: f"1 to {size}" for name, size in zip(names, sizes, strict=True)}
    sound = exercise(given=written, pose="A pier.", parts=[number("pier(4)")])
    raw = data.draw(st.integers(0, prod(sizes) - 1))
    found = given_at(sound, raw)
    assert list(found) == names
    assert found == list(walk(sound))[raw]
    back = 0
    for value, size in zip(found.values(), sizes, strict=True):
        back = back * size + value - 1
    assert back == raw


@pytest.mark.parametrize("raw", [-1, 6, 7])
def test_there_is_nothing_outside_the_space(exercise, raw: int) -> None:
    with pytest.raises(IndexError):
        given_at(exercise(given=TWO, parts=[number("pier(bricks)")]), raw)
    with pytest.raises(IndexError):
        Space(exercise=exercise(), indices=(0, 3, 5)).variant(max(raw, 3))


def test_variants_are_counted_over_what_may_be_issued(exercise) -> None:
    space = Space(exercise=exercise(given={"bricks": "2.5 to 6 by 0.5"}), indices=(0, 3, 7))
    assert [space.variant(index)["bricks"] for index in range(len(space))] == [Fraction(5, 2), 4, 6]


def test_walking_twice_gives_the_same_space(exercise) -> None:
    once, again = (prove(exercise(given={"bricks": "2 to 40"})).space for _ in range(2))
    assert list(once.indices) == list(again.indices) == sorted(once.indices)
