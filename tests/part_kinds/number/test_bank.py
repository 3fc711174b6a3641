"""A figure in a bank: its keys, and the limits of what may stand in them."""

from __future__ import annotations

import pytest


def test_a_figure_has_what_its_keys_say(exercise, number) -> None:
    part = number(
        unit="mm", round=1, within="2", told=True, fixed=True, marks=3,
        accept=[{"value": "bricks", "says": "By rule"}],
        slips=[{"value": "1", "says": "One"}, {"value": "2", "says": "Two", "earns": 2}],
    )  # fmt: skip
    [made] = exercise(parts=[part]).parts
    assert (made.unit, made.places, made.told, made.fixed, made.marks) == ("mm", 1, True, True, 3)
    assert [route.earns for route in made.accept] == [3]  # a route earns all, unless it says otherwise
    assert [slip.earns for slip in made.slips] == [0, 2]  # a slip nothing
    assert made.within.figure({}) == 2


def test_a_figure_has_no_unit_band_or_rounding_unless_it_says_so(exercise, number) -> None:
    [made] = exercise(parts=[number()]).parts
    assert (made.unit, made.places, made.within, made.accept, made.slips) == ("", None, None, (), ())


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ({"round": 6}, []),
        ({"round": 7}, ["7 decimal places; expected 0 to 6"]),
        ({"unit": "x" * 20}, []),
        ({"unit": "x" * 21}, ["the unit is too long; expected at most 20 characters"]),
        ({"marks": 20}, []),
        ({"marks": 21}, ["21 marks; expected 1 to 20"]),
        ({"slips": [{"value": "1", "says": "One", "earns": 1}]}, []),
        ({"slips": [{"value": "1", "says": "One", "earns": 2}]}, ["2 marks of 1; expected at most 1"]),
        ({"within": "3 > 2"}, ["`3 > 2` is a truth; expected a number"]),
        ({"answer": "'long'"}, ["`'long'` is a word; expected a number"]),
        ({"working": []}, ["`working` is empty; a part of kind number needs answer, marks, working"]),
        ({"apart_from": ["height"]}, ["`height` is not an earlier part; expected none: this is the first"]),
    ],
)
def test_what_may_stand_in_its_keys(faults, number, keys, told: list[str]) -> None:
    assert faults({**number(), **keys}) == told


def test_it_may_stand_apart_from_an_earlier_part(faults, number) -> None:
    first = number("first", "bricks * 2")
    assert faults(first, number("second", "bricks * 3", apart_from=["first"])) == []
    assert faults(first, number("second", "bricks * 3", apart_from=["frist"])) == [
        "`frist` is not an earlier part; did you mean `first`? expected one of first"
    ]
