"""What can stand in a formula and what cannot, told when the bank is read, each with its message."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.banks.compile_formula import MOST_CHARACTERS, MOST_NODES
from courseware.banks.formulas import FormulaFault, FormulaImpossible
from courseware.trade import TradeError

ALLOWED = "expected numbers, names, + - * / // % **, comparisons, and/or/not, `a if test else b`, known functions"
SIGNS = "only plain letters, figures and + - * / ( ) are allowed"
FIGURES = "expected figures such as 225 or 0.05, at most 15 digits"
BRACKETS = "check brackets and signs"
NAMES = (
    "arris_rule, bed, brick_height, brick_length, brick_width, bricks, course, false, half, joint, module, perpend, "
    "side, true"
)


@pytest.mark.parametrize(
    "text",
    [
        "bricks.real", "().__class__.__base__.__subclasses__()", "bricks.__class__",
        "lambda: 1", "(lambda: (y := 1))()", "(y := 3)", "(yield)", "(await bricks)",
        "(1, 2)", "(x for x in side)", "pier(bricks)(1)", "(pier)(bricks)(2)", "'a'('b')", "f'a'",
        "bricks is 3", "bricks is not 3", "side in side", "1 @ 2", "1 | 2", "1 & 2", "1 << 2", "1 >> 2", "~1",
    ],
)  # fmt: skip
def test_a_construct_outside_the_list(formula, text: str) -> None:
    wrong, expected = refused(formula, text)
    assert wrong.endswith("` is not allowed in a formula"), wrong
    assert expected == ALLOWED


@pytest.mark.parametrize(
    ("text", "wrong", "expected"),
    [
        ("", "the formula is empty", "expected a formula such as `bricks * module + joint`"),
        ("   ", "the formula is empty", "expected a formula such as `bricks * module + joint`"),
        ("bricks × 2", "the character `×` cannot stand in a formula", "use * to multiply"),
        ("bricks ÷ 2", "the character `÷` cannot stand in a formula", "use / to divide"),
        ("bricks − 2", "the character `−` cannot stand in a formula", "use - to subtract"),
        ("bricks – 2", "the character `–` cannot stand in a formula", "use - to subtract"),
        ("bricks²", "the character `²` cannot stand in a formula", "use ** 2"),
        ("½", "the character `½` cannot stand in a formula", "write 0.5"),
        ("bricks ^ 2", "the character `^` cannot stand in a formula", "use ** for a power"),
        ("bricks # 2", "the character `#` cannot stand in a formula", "no comments"),
        ("[x for x in side]", "the character `[` cannot stand in a formula", "no lists"),
        ("side[0]", "the character `[` cannot stand in a formula", "no lists"),
        ("'{}'.format(1)", "the character `{` cannot stand in a formula", "no braces"),
        ("{1: 2}", "the character `{` cannot stand in a formula", "no braces"),
        ("f'{bricks}'", "the character `{` cannot stand in a formula", "no braces"),
        ("'\\x41'", "the character `\\` cannot stand in a formula", "no backslashes"),
        ("ｂricks", "the character `ｂ` cannot stand in a formula", SIGNS),  # NFKC would make `bricks` of it
        ("ﬁ", "the character `ﬁ` cannot stand in a formula", SIGNS),
        ("ℓ", "the character `ℓ` cannot stand in a formula", SIGNS),
        ("١", "the character `١` cannot stand in a formula", SIGNS),
        ("bricks\n+ 1", "the character `\n` cannot stand in a formula", SIGNS),
        ("bricks = 3", "`bricks = 3` does not read as a formula", "use == to compare"),
        ("bricks) + (side", "`bricks) + (side` does not read as a formula", BRACKETS),
        ("(bricks", "`(bricks` does not read as a formula", BRACKETS),
        ("bricks bricks", "`bricks bricks` does not read as a formula", BRACKETS),
        ("bricks; bricks", "`bricks; bricks` does not read as a formula", BRACKETS),
        ("import os", "`import os` does not read as a formula", BRACKETS),
        ("3 if bricks", "`3 if bricks` does not read as a formula", BRACKETS),
        ("1 <> 2", "`1 <> 2` does not read as a formula", BRACKETS),
        ("010 * bricks", "a number starts with a needless 0", "expected plain decimal figures such as 10 or 0.5"),
        ("0x1F", "`0x1F` is not a plain number", FIGURES),
        ("1e3", "`1e3` is not a plain number", FIGURES),
        ("1_000", "`1_000` is not a plain number", FIGURES),
        ("3j", "`3j` is not a plain number", FIGURES),
        (".5", "`.5` is not a plain number", FIGURES),
        ("5.", "`5.` is not a plain number", FIGURES),
        ("1234567890123456", "`1234567890123456` is not a plain number", FIGURES),
        ("None", "`None` is not a plain number", FIGURES),
        ("...", "`...` is not a plain number", FIGURES),
        ("b'a'", "`b'a'` is not a plain number", FIGURES),
        ("f'a' 'b'", "`f'a' 'b'` is not allowed in a formula", ALLOWED),
        ("brick * 2", "`brick` is not known here", f"did you mean `bricks`? a word needs quotes; expected one of {NAMES}"),
        ("__builtins__", "`__builtins__` is not known here", f"a word needs quotes; expected one of {NAMES}"),
        ("OVER", "`OVER` is not known here", f"a word needs quotes; expected one of {NAMES}"),
        ("POWER(1, 2)", "there is no function `POWER`", None),
        ("eval('1')", "there is no function `eval`", None),
        ("openning(3)", "there is no function `openning`", None),
        ("bricks(3)", "there is no function `bricks`", None),
        ("pier + 1", "`pier` is a function", "expected brackets after it, as pier(…)"),
        ("pier()", "`pier` lacks bricks", "expected pier(bricks)"),
        ("pier(1, 2)", "`pier` is not called as it should be", "expected pier(bricks)"),
        ("pier(bricks=1)", "`pier` is not called as it should be", "expected pier(bricks)"),
        ("pier(*bricks)", "`*bricks` is not allowed in a formula", ALLOWED),
        ("packs(1, **side)", "`packs` is not called as it should be", "expected packs(quantity, waste, pack)"),
        ("packs(1, 2, waste=3)", "`packs` is not called as it should be", "expected packs(quantity, waste, pack)"),
        ("packs(1, wast=3)", "`packs` is not called as it should be", "expected packs(quantity, waste, pack)"),
        ("least()", "`least` is given 0 figures", "expected least(x, …)"),
        ("least(1)", "`least` is given 1 figures", "expected least(x, …)"),
        ("most(1, x=2)", "`most` is given 1 figures", "expected most(x, …)"),
        ("'a' * 10 ** 9", "`'a'` is a word", "expected a number here"),
        ("'%999999999d' % bricks", "`'%999999999d'` is a word", "expected a number here"),
        ("'a' + 'b'", "`'a'` is a word", "expected a number here"),
        ("-'a'", "`'a'` is a word", "expected a number here"),
        ("'a' < 'b'", "a word cannot be larger or smaller", "expected == or != between words"),
        ("side == 3", "`3` is a number", "expected a word here"),
        ("True + 1", "`True` is a truth", "expected a number here"),
        ("not bricks", "`bricks` is a number", "expected a truth here"),
        ("bricks and 1", "`bricks` is a number", "expected a truth here"),
        ("1 if bricks else 2", "`bricks` is a number", "expected a truth here"),
        ("1 if True else 'a'", "`'a'` is a word", "expected a number here"),
        ("pier('a')", "`'a'` is a word", "expected a number here"),
        ("cement_bags(1, 5)", "`5` is a number", "expected a word here"),
        ("'" + "a" * 61 + "'", "a word of 61 characters", "expected at most 60"),
        ("side == '" + "a" * 60 + "b'", "a word of 61 characters", "expected at most 60"),
    ],
)  # fmt: skip
def test_a_refused_formula_says_what_to_do(formula, text: str, wrong: str, expected: str | None) -> None:
    told = refused(formula, text)
    assert told[0] == wrong
    if expected is None:
        assert "expected one of angle_of_sight, arris, " in told[1]
    else:
        assert told[1] == expected


LONG = f"the formula has {MOST_CHARACTERS + 1} characters"


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("1" + " " * (MOST_CHARACTERS - 1) + "1", LONG),
        ("(" * 150 + "1" + ")" * 150, LONG),
        ("(" * 149 + "1" + ")" * 149, None),  # brackets alone are no depth, where Python itself reads them
        ("-" * 299 + "1", "the formula is too involved"),
        ("-" * 30 + "1", None),
        ("-" * 31 + "1", "the formula is too involved"),
        ("+".join(["1"] * (MOST_NODES // 2)), "the formula is too involved"),
        ("+".join(["1"] * 31), None),
        ("not " * 70 + "True", "the formula is too involved"),
        ("up(" * 90 + "1" + ")" * 90, LONG.replace("301", "361")),
        ("1 if True else " * 19 + "1", None),
        ("9 ** " * 50 + "9", "the formula is too involved"),
    ],
    ids=lambda value: str(value)[:12],
)  # fmt: skip
def test_length_and_depth_are_bounded(formula, text: str, wrong: str | None) -> None:
    start = time.process_time()
    if wrong is None:
        formula(text)
    else:
        assert refused(formula, text)[0] == wrong
    assert time.process_time() - start < 1


def refused(formula, text: str) -> tuple[str, str]:
    with pytest.raises(FormulaFault) as fault:
        formula(text, bricks="number", side="word")
    return fault.value.wrong, fault.value.expected


WORDS = ["bricks", "module", "opening", "up", "least", "if", "else", "and", "not", "in", "is", "lambda", "for", "await"]
SCRAPS = [
    *"()+-*/%<>=!,.:;'\"~@|&^[]{}\\#_",
    "**",
    "//",
    "==",
    ":=",
    "0",
    "1",
    "12.5",
    "1e9",
    "0x1",
    " ",
    "\n",
    "½",
    "×",
    "ﬁ",
]


@settings(max_examples=20 * settings.default.max_examples)
@given(st.lists(st.sampled_from(WORDS + SCRAPS), max_size=30).map("".join) | st.text(max_size=60))
def test_whatever_is_typed_gets_an_answer_in_the_tools_own_words(formula, text: str) -> None:
    try:
        checked = formula(text, bricks="number")
        checked.figure({"bricks": 3}) if checked.kind == "number" else checked.value({"bricks": 3})
    except (FormulaFault, FormulaImpossible, TradeError):
        pass
