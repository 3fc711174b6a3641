"""Figures taken in as written: exact, or refused in words."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import TradeError
from courseware.trade.exact import number, whole


@pytest.mark.parametrize(
    ("written", "exact"),
    [
        (0.1, Fraction(1, 10)),  # never the float beside it
        (1e-3, Fraction(1, 1000)),
        (Decimal("102.50"), Fraction(205, 2)),
        ("3", Fraction(3)),
        ("3.5", Fraction(7, 2)),
        ("7/2", Fraction(7, 2)),
        ("-7/2", Fraction(-7, 2)),
        ("+3", Fraction(3)),
        (" 3 ", Fraction(3)),
        ("007", Fraction(7)),
        (Fraction(1, 3), Fraction(1, 3)),
        (-4, Fraction(-4)),
        ("9" * 60, Fraction(10**60 - 1)),
        (Decimal("1e60"), Fraction(10**60)),
        (Decimal("0e99"), Fraction(0)),
    ],
)
def test_a_figure_is_what_was_written(written, exact) -> None:
    found = number(written)
    assert found == exact
    assert type(found) is Fraction


@given(st.decimals(-(10**6), 10**6, places=6))
def test_text_float_and_decimal_of_the_same_digits_are_the_same_figure(value: Decimal) -> None:
    assert number(f"{value:f}") == number(value) == Fraction(value)
    assert number(float(value)) == Fraction(repr(float(value)))


@pytest.mark.parametrize(
    "value",
    ["", "three", "1,5", "1e3", "0x10", "½", "٣", "1.5/2", "1/0", "--1", ".5", "5.", "1_000", "9" * 61, True, False, None, [3],
     float("nan"), float("inf"), Decimal("-Infinity"), Decimal("1e61"), Decimal("1e-61"), "240 mm"],
)  # fmt: skip
def test_what_is_no_figure_is_refused_with_what_is_one(value) -> None:
    with pytest.raises(TradeError, match="is not a figure: write a whole number, a decimal or a fraction"):
        number(value)


def test_a_very_long_figure_is_not_shown_whole() -> None:
    with pytest.raises(TradeError) as told:
        number("9" * 10_000)
    assert len(str(told.value)) < 200
    assert "…" in str(told.value)


def test_things_that_are_only_ever_whole() -> None:
    assert whole("4/2", what="packs are whole") == 2
    for value in ("1.5", Fraction(-1, 2)):
        with pytest.raises(TradeError, match="will not do: packs are whole"):
            whole(value, what="packs are whole")
