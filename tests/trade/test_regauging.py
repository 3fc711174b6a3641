"""A height filled by its courses at another gauge."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import (
    regauge,
)


@given(st.fractions(200, 3000, max_denominator=4))
def test_a_regauged_height_is_filled_by_its_courses(size: Fraction) -> None:
    found = regauge(size)
    assert found.courses * found.gauge == size
    assert found.gauge == found.bed + 65
