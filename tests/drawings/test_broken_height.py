"""A height with its middle left out: true to scale under the break and over it, and nothing between them."""

from fractions import Fraction

import pytest

from courseware.drawings.broken_height import GAP, BrokenHeight, reach
from courseware.drawings.picture import Stroke

VIEW = BrokenHeight(one_to=20, origin=(5.0, 60.0), low=Fraction(150), high=Fraction(1800))


def test_both_parts_are_to_scale_and_a_gap_of_paper_lies_between_them() -> None:
    assert VIEW.at(0, 0) == (5.0, 60.0)
    assert VIEW.at(200, 150) == pytest.approx((15.0, 52.5))
    assert VIEW.at(0, 1801)[1] == pytest.approx(52.5 - GAP - 1 / 20)
    assert VIEW.at(0, 1900)[1] - VIEW.at(0, 2000)[1] == pytest.approx(5.0)


def test_what_stays_is_the_whole_less_what_is_left_out() -> None:
    assert reach(Fraction(150), Fraction(1800), Fraction(2000)) == 350


def test_the_break_lines_lie_in_the_gap_and_run_past_the_wall() -> None:
    [stroke] = VIEW.break_lines(0, 400)
    assert isinstance(stroke, Stroke)
    assert len(stroke.outlines) == 2
    for line in stroke.outlines:
        assert line[0][0] < 5.0
        assert line[-1][0] > 25.0
        assert all(52.5 - GAP < y < 52.5 for _, y in line)
