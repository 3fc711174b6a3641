"""The workable size nearest to one asked for, and what cannot be set out."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import (
    UK_METRIC,
    TradeError,
    bricks_in_opening,
    opening,
    workable_openings,
)

halves = st.integers(1, 400).map(lambda n: Fraction(n, 2))


@given(halves)
def test_bricks_in_an_opening_are_the_bricks_it_was_made_for(bricks: Fraction) -> None:
    assert bricks_in_opening(opening(bricks)) == bricks


@given(st.fractions(123, 20000, max_denominator=10))
def test_workable_openings_stand_either_side_half_a_module_apart_at_most(width: Fraction) -> None:
    below, above = workable_openings(width)
    assert below <= width <= above
    assert above - below in (0, UK_METRIC.half)


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        (
            lambda: opening("3.2"),
            "3.2 bricks cannot be set out: bricks go in halves; the nearest are 3 and 3½ bricks",
        ),
        (
            lambda: bricks_in_opening(1000),
            "an opening of 1000 mm does not work to half bricks: "
            "the nearest are 910 mm (4 bricks) and 1022.5 mm (4½ bricks)",
        ),
        (lambda: opening(0), "0 bricks cannot be set out: bricks go in halves, and the least is half a brick"),
    ],
)
def test_impossible_asks_name_the_nearest(ask, message: str) -> None:
    with pytest.raises(TradeError) as error:
        ask()
    assert str(error.value) == message
