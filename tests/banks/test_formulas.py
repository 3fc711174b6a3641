"""What formulas come to: exact figures, school's order of signs and powers, words and truths."""

from __future__ import annotations

import operator
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from courseware.banks.formulas import FormulaImpossible
from courseware.trade import TradeError


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0.1 + 0.2", "3/10"),  # a float makes 0.30000000000000004 of it
        ("0.1 + 0.2 == 0.3", True),
        ("1.35 / 0.075", "18"),  # and rounds 18 courses up to 19
        ("10 / 4", "5/2"),
        ("1 / 3 * 3", "1"),
        ("7 // 2", "3"),
        ("7.5 // 2", "3"),
        ("7 % 2", "1"),
        ("7.5 % 2", "3/2"),
        ("-7 // 2", "-4"),
        ("2 + 3 * 4", "14"),
        ("(2 + 3) * 4", "20"),
        ("12 - 3 - 2", "7"),
        ("12 / 3 / 2", "2"),
        ("-3 ** 2", "-9"),  # the power first, then the sign
        ("(-3) ** 2", "9"),
        ("2 ** 3 ** 2", "512"),  # powers from the right
        ("2 ** -1", "1/2"),
        ("2 ** 12", "4096"),
        ("1.5 ** 2", "9/4"),
        ("4 ** (1 + 1)", "16"),
        ("+5 - -2", "7"),
        ("1 < 2 < 3", True),
        ("1 < 2 > 3", False),
        ("2 >= 2 and not 3 != 3", True),
        ("False or True", True),
        ("1 if 2 > 3 else 4", "4"),
        ('"left" if 1 < 2 else "right"', "left"),
        ("'left' == 'left'", True),
        ("3 if 'left' != 'right' else 4", "3"),
        ("bricks * module - joint", "890"),  # Sheet 9, Table 1: a pier of 4 bricks
        ("pier(bricks) == bricks * module - joint", True),
        ("wide / 2", "455"),
        ("'near' if side == 'left' else 'far'", "near"),
        ("up(2.1) + down(2.9)", "5"),
        ("regauge_bed(1200, courses=16)", "10"),
        ("packs(100, pack=50, waste=5)", "3"),
        ("  1 + 1  ", "2"),
    ],
)
def test_a_formula_comes_to(formula, text: str, value: str | bool) -> None:
    scope = {"bricks": 4, "wide": 910, "side": "left"}
    found = formula(text, bricks="number", wide="number", side="word").value(scope)
    wanted = Fraction(value) if isinstance(value, str) and value[-1].isdigit() else value
    assert found == wanted
    assert type(found) is not float


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("1 / bricks", "`1 / bricks` divides by nothing"),
        ("1 // bricks", "`1 // bricks` divides by nothing"),
        ("1 % bricks", "`1 % bricks` divides by nothing"),
        ("bricks ** -1", "`bricks ** -1` divides by nothing"),
        ("9 ** 9 ** 9", "`9 ** 9 ** 9`: a power must be a whole number from -12 to 12"),
        ("2 ** 0.5", "`2 ** 0.5`: a power must be a whole number from -12 to 12"),
        ("(0 - 4) ** 0.5", "`(0 - 4) ** 0.5`: a power must be a whole number from -12 to 12"),
        ("10 ** 12 * 10 ** 12", "`10 ** 12 * 10 ** 12` gives a figure of more than 24 digits"),
        ("1 / 10 ** 12 / 10 ** 12", "`1 / 10 ** 12 / 10 ** 12` gives a figure of more than 24 digits"),
        ("(10 ** 12 * 10 ** 12) ** 12", "`(10 ** 12 * 10 ** 12) ** 12`: a power of a figure of more than 24 digits"),
        ("pier(bricks)", "0 bricks cannot be set out: bricks go in halves, and the least is half a brick"),
        ("nearest(5, 0)", "nearest needs a step above 0"),
        ("inches(1) + (1 if in_inches(1) == '1 in' else 0)", "in_inches gives no short fraction of an inch: it does not write out exactly: round it, as in nearest(x, 0.01)"),
    ],
)  # fmt: skip
def test_a_formula_that_gives_no_figure_says_why(formula, text: str, why: str) -> None:
    with pytest.raises((FormulaImpossible, TradeError)) as impossible:
        formula(text, bricks="number").figure({"bricks": 0})
    assert str(impossible.value) == why


@pytest.mark.parametrize("name", ["n0", "n0_", "over_", "power_", "x", "e", "match", "builtins", "eval"])
def test_no_given_can_stand_in_the_way_of_the_arithmetic(formula, name: str) -> None:
    assert formula(f"0.5 / 2 + {name} ** 2 * 0", **{name: "number"}).value({name: 7}) == Fraction(1, 4)


def test_a_formula_names_what_it_takes_from_the_variant(formula) -> None:
    assert formula("pier(bricks) + joint", bricks="number", courses="number").names == {"bricks"}


leaves = st.integers(0, 999) | st.decimals(0, 999, places=2).map(str) | st.sampled_from(["bricks", "half"])
signs = st.sampled_from(["+", "-", "*", "/"])
trees = st.recursive(
    leaves, lambda deeper: st.tuples(deeper, signs, deeper) | st.tuples(st.just("-"), deeper), max_leaves=20
)
SIGNS = {"+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv}
NAMES = {"bricks": Fraction(7, 2), "half": Fraction("112.5")}


def written(tree: object) -> str:
    return f"({' '.join(map(written, tree))})" if isinstance(tree, tuple) else str(tree)


def worked_out(tree: object) -> Fraction:
    match tree:
        case ("-", inner):
            return -worked_out(inner)
        case (left, sign, right):
            return SIGNS[sign](worked_out(left), worked_out(right))
    return NAMES.get(tree) or Fraction(tree)


@settings(deadline=None)
@given(trees)
def test_a_formula_comes_to_what_exact_fractions_come_to(formula, tree: object) -> None:
    text = written(tree)
    assume(len(text) <= 300)
    checked = formula(text, bricks="number")
    try:
        wanted = worked_out(tree)
    except ZeroDivisionError:
        with pytest.raises(FormulaImpossible):
            checked.value(NAMES)
        return
    assert checked.value(NAMES) == wanted
