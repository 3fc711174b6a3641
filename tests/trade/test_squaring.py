"""The diagonal of a set-out rectangle."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import (
    diagonal,
)


@given(st.integers(1, 9000), st.integers(1, 9000))
def test_a_diagonal_is_right_to_a_millionth(width: int, height: int) -> None:
    found = diagonal(width, height)
    slack = Fraction(1, 10**6)
    assert (found - slack) ** 2 <= width**2 + height**2 <= (found + slack) ** 2
