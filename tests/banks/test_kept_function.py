"""A trade function made ready for formulas: its results kept, whole figures whole, its parameters named in order."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks.kept_function import function


def test_a_result_is_worked_out_once_for_the_same_figures() -> None:
    asked: list[tuple] = []

    def twice(x, by=2):
        asked.append((x, by))
        return x * by

    made = function(twice, "x by", "twice", needed=1)
    assert [made.call(3), made.call(3), made.call(4), made.call(3, by=3)] == [6, 6, 8, 9]
    assert asked == [(3, 2), (4, 2), (3, 3)]


def test_what_cannot_be_is_asked_again_and_told_again() -> None:
    def never(x):
        raise ValueError(f"not {x}")

    made = function(never, "x", "")
    for _ in range(2):
        with pytest.raises(ValueError, match="not 3"):
            made.call(3)


@pytest.mark.parametrize(
    ("value", "given"), [(Fraction(6, 2), 3), (Fraction(1, 2), Fraction(1, 2)), ("top", "top"), (True, True), (7, 7)]
)
def test_a_whole_figure_is_an_int_and_all_else_stays(value, given) -> None:
    found = function(lambda: value, "", "").call()
    assert (found, type(found)) == (given, type(given))


def test_all_parameters_are_needed_numbers_unless_it_says_otherwise() -> None:
    plain = function(max, "a b", "the larger")
    assert (plain.parameters, plain.needed, plain.result, plain.repeats) == (
        (("a", "number"), ("b", "number")),
        2,
        "number",
        False,
    )
    other = function(max, "a b", "", needed=1, result="truth", repeats=True, words={"b": "word"})
    assert (other.parameters, other.needed, other.result, other.repeats) == (
        (("a", "number"), ("b", "word")),
        1,
        "truth",
        True,
    )
    assert plain.says == "the larger"
