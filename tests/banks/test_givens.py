"""What a given may take, and what it may not."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks.formulas import FormulaFault
from courseware.banks.givens import MOST_VALUES, read_given

EXPECTED = "expected `3 to 9`, `6 to 18 by 3`, a list such as [4, 6, 9] or words in quotes"


@pytest.mark.parametrize(
    ("written", "values"),
    [
        ("3 to 6", [3, 4, 5, 6]),
        ("6 to 18 by 6", [6, 12, 18]),
        ("2.5 to 4 by 0.5", [Fraction(5, 2), 3, Fraction(7, 2), 4]),
        ("0.1 to 0.3 by 0.1", [Fraction(1, 10), Fraction(1, 5), Fraction(3, 10)]),  # three steps of a float miss 0.3
        ("-2 to 2 by 2", [-2, 0, 2]),
        ("7 to 7", [7]),
        ("  3   to 5 ", [3, 4, 5]),
        ("12", [12]),
        ("2.50", [Fraction(5, 2)]),
    ],
)
def test_a_span_holds_every_step(written: str, values: list[Fraction]) -> None:
    found = read_given("bricks", written)
    assert list(found.values) == values
    assert found.kind == "number"
    assert all(type(value) is int or value.denominator > 1 for value in found.values)


@pytest.mark.parametrize(
    ("written", "values", "kind"),
    [
        ([("4", False), ("6.5", False)], (4, Fraction(13, 2)), "number"),
        ([("9", False), ("3", False)], (9, 3), "number"),  # in the bank's own order
        ([("left", True), ("right", True)], ("left", "right"), "word"),
        ([("1:5", True), ("1:6", True)], ("1:5", "1:6"), "word"),
        ([("3", True), ("4", True)], ("3", "4"), "word"),  # quotes make a word of a figure
    ],
)
def test_a_list_holds_figures_or_words(written: list[tuple[str, bool]], values: tuple[object, ...], kind: str) -> None:
    found = read_given("taken", written)
    assert (found.values, found.kind) == (values, kind)


def test_one_word_in_quotes_is_a_fixed_word() -> None:
    assert read_given("side", "left", quoted=True).values == ("left",)


@pytest.mark.parametrize(
    ("written", "wrong", "expected"),
    [
        ("9 to 3", "`9 to 3` holds no value", "expected the smaller figure first and a step above 0"),
        ("3 to 9 by 0", "`3 to 9 by 0` holds no value", "expected the smaller figure first and a step above 0"),
        ("3 to 9 by -3", "`3 to 9 by -3` holds no value", "expected the smaller figure first and a step above 0"),
        ("3 to 10 by 3", "`3 to 10 by 3` does not end on a step", "expected the last figure to be reached exactly"),
        ("2.5 to 4", "`2.5 to 4` does not end on a step", "expected the last figure to be reached exactly"),
        ("1 to 2001", "`1 to 2001` holds 2001 values", f"at most {MOST_VALUES} are allowed"),
        ("0 to 999999999999999 by 0.000000000000001", "`0 to 999999999999999 by 0.000000000000001` holds 999999999999999000000000000001 values", f"at most {MOST_VALUES} are allowed"),
        ("1,5", "`1,5` has a decimal comma", "expected a point: 1.5"),
        ("left", "`left` is not a value", EXPECTED),
        ("3..9", "`3..9` is not a value", EXPECTED),
        ("3 - 9", "`3 - 9` is not a value", EXPECTED),
        ("+3", "`+3` is not a value", EXPECTED),
        ("1e3", "`1e3` is not a value", EXPECTED),
        ("١", "`١` is not a value", EXPECTED),
        ("", "`` is not a value", EXPECTED),
        ("1234567890123456", "`1234567890123456` is not a value", EXPECTED),
        ([], "the list is empty", EXPECTED),
        ([("1", False), ("left", True)], "the list mixes figures and words", "expected all figures, or all words in quotes"),
        ([("2", False), ("2.0", False)], "the list names a value twice", "expected each value once"),
        ([("3 to 9", False)], "`3 to 9` is not a value", EXPECTED),
        ([(" ", True)], "` ` is not a value", EXPECTED),
        ([("a" * 61, True)], f"`{'a' * 60}` is not a value", EXPECTED),
        ([(str(n), False) for n in range(MOST_VALUES + 1)], f"the list has {MOST_VALUES + 1} values", f"at most {MOST_VALUES} are allowed"),
    ],
    ids=lambda value: str(value)[:30],
)  # fmt: skip
def test_what_a_given_cannot_take(written: str | list[tuple[str, bool]], wrong: str, expected: str) -> None:
    with pytest.raises(FormulaFault) as fault:
        read_given("bricks", written)
    assert (fault.value.wrong, fault.value.expected) == (wrong, expected)
