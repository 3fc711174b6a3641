"""Formulas as terms: what is the same written otherwise, what stands in what, and what comes of putting it there."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.banks.formulas import FormulaImpossible
from courseware.banks.terms import evaluated, holds, names_in, replaced, term, unrounded, worked_out


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("2 * a * b", "b * (a * 2)"),
        ("a - b", "-b + a"),
        ("a * 2 / 100", "a * 0.02"),
        ("a / b", "a * (1 / b)"),
        ("a / (b * c)", "a / b / c"),
        ("1 + a + 2", "a + 3"),
        ("+a", "a"),
        ("(a + b) + c", "c + (b + a)"),
        ("a / (1 / b)", "a * b"),
    ],
)
def test_one_formula_written_two_ways_is_one_term(one: str, other: str) -> None:
    assert term(one) == term(other)


@pytest.mark.parametrize(
    ("one", "other"), [("a - b", "b - a"), ("a / b", "b / a"), ("a ** 2", "a * 2"), ("a // b", "a % b")]
)
def test_formulas_that_differ_are_two_terms(one: str, other: str) -> None:
    assert term(one) != term(other)


@pytest.mark.parametrize(
    ("whole", "part", "there"),
    [
        ("a * b * c", "c * a", True),
        ("a * b * 3", "2 * a * b", True),
        ("a + b + c", "a + c", True),
        ("up(a * b / 25)", "a * b", True),
        ("1 if a * b > c else 0", "a * b", True),
        ("a * b + c", "b + c", False),
        ("a * b", "a * a * b", False),
        ("a + b", "a + 2 * b", False),
        ("pier(a)", "opening(a)", False),
    ],
)
def test_what_stands_in_a_formula(whole: str, part: str, there: bool) -> None:
    assert holds(term(whole), term(part)) is there


@pytest.mark.parametrize(
    ("text", "before"),
    [
        ("nearest(a * b, 0.1)", "a * b"),
        ("up(nearest(a, 1) / 2)", "nearest(a, 1) / 2"),
        ("nearest(a * b, 1) if a > 0 else 0", "a * b"),
        ("5 if a > 0 else 6", "5 if a > 0 else 6"),
        ("a * b", "a * b"),
    ],
)
def test_what_a_formula_is_before_it_is_rounded(text: str, before: str) -> None:
    assert unrounded(term(text)) == term(before)


def test_a_name_alone_and_a_figure_alone_are_not_worked_out() -> None:
    assert [worked_out(term(text)) for text in ("a", "5", "2 + 3", "a * 2", "pier(a)", "pier(3)")] == [
        False, False, False, True, True, False,
    ]  # fmt: skip
    assert names_in(term("up(a * module) if b else c")) == {"a", "module", "b", "c"}


FORMULAS = [
    "a * b + c", "a - b * 2 - c", "(a + b) / (c + 1)", "a ** 2 - b ** 2", "a // 3 + b % 4", "nearest(a / 7, 0.1)",
    "up(a / 3) if a > b else down(b / 3)", "1 if a == b or not c < 3 and a != 2 else -c", "pier(a) + opening(b)",
    "surround_cuts(4, 15, corner='butted') * a", "least(a, b, c) + most(a, b)", "a / b / c * 0.5",
]  # fmt: skip


@given(st.sampled_from(FORMULAS), *(st.integers(1, 40) for _ in range(3)))
def test_a_term_has_the_value_of_its_formula(formula, text: str, a: int, b: int, c: int) -> None:
    compiled = formula(text, a="number", b="number", c="number")
    scope = {"a": a, "b": b, "c": c}
    assert evaluated(term(text), scope, compiled.fixed) == compiled.value(scope)


@given(st.integers(1, 99), st.integers(1, 99), st.integers(1, 99))
def test_what_is_put_in_place_of_a_product_stands_for_its_figure(formula, a: int, b: int, c: int) -> None:
    fixed = formula("1").fixed
    again = replaced(term("3 * a * b * c"), term("2 * a * b"), ("figure", Fraction(2 * a * b)))
    assert evaluated(again, {"c": c}, fixed) == 3 * a * b * c


def test_dividing_by_nothing_is_impossible(formula) -> None:
    with pytest.raises(FormulaImpossible):
        evaluated(term("1 / a"), {"a": 0}, formula("1").fixed)
