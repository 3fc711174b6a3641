"""Whole numbers with the root of two, against the decimals of Python's own `decimal` at 60 places."""

from __future__ import annotations

from decimal import Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade.root_two import in_figures, less, sign, times

SURDS = st.tuples(st.integers(-(10**12), 10**12), st.integers(-(10**12), 10**12))


def in_decimals(value: tuple[int, int]) -> Decimal:
    return value[0] + value[1] * Decimal(2).sqrt()


@given(SURDS)
def test_its_sign_is_that_of_its_decimals(value) -> None:
    with localcontext(prec=60):
        worth = in_decimals(value)
        assert sign(value) == (worth > 0) - (worth < 0)


# Convergents of √2, from its continued fraction: as near to nought as whole numbers of their size come.
@pytest.mark.parametrize(
    ("value", "expected"),
    [((7, -5), -1), ((17, -12), 1), ((-41, 29), 1), ((-99, 70), -1), ((0, 0), 0), ((0, -1), -1), ((1, 0), 1)],
)
def test_numbers_close_to_nought_have_their_sign(value, expected) -> None:
    with localcontext(prec=60):
        worth = in_decimals(value)
        assert sign(value) == expected == (worth > 0) - (worth < 0)


@given(SURDS, SURDS)
def test_difference_and_product_are_those_of_the_decimals(one, other) -> None:
    with localcontext(prec=60):
        a, b = in_decimals(one), in_decimals(other)
        assert abs(in_decimals(less(one, other)) - (a - b)) < Decimal("1e-30")
        assert abs(in_decimals(times(one, other)) - a * b) <= abs(a * b) * Decimal("1e-40") + Decimal("1e-30")


def test_a_figure_is_exact_without_a_root_and_fine_with_one() -> None:
    assert in_figures((7, 0), 2) * 2 == 7
    assert float(in_figures((1, 1))) == pytest.approx(2.414213562373, abs=1e-12)
