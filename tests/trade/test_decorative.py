"""Soldiers, sills, dentils and dog-tooth: geometry, with shapely beside it."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import LineString, box

from courseware.trade import (
    UK_METRIC,
    TradeError,
    dentils,
    dog_tooth,
    on_edge,
    pieces_in,
    pier,
    run_of,
    soldiers,
    stack_bond,
)


@pytest.mark.parametrize(
    ("length", "pieces"),
    [(890, 12), (1115, 15), (665, 9)],  # piers of 4, 5 and 3 bricks (sheet-9, Table 1): three soldiers to a brick
)
def test_three_soldiers_stand_to_a_brick(length, pieces) -> None:
    run = soldiers(length)
    assert (run.pieces, run.joint) == (pieces, 10)


@given(st.integers(2, 200), st.integers(-2, 2))
def test_a_run_of_pieces_fills_its_length(pieces, wider) -> None:
    length = pieces * 65 + (pieces - 1) * (10 + wider)
    run = run_of(65, length)
    assert run.pieces * 65 + (run.pieces - 1) * run.joint == length
    assert 6 <= run.joint <= 14


@given(st.integers(2, 40))
def test_dentils_and_headers_alternate_over_a_pier(halves) -> None:
    length = pier(Fraction(halves, 2))
    if halves % 2 == 0 or halves < 3:
        with pytest.raises(TradeError, match="odd numbers"):
            dentils(length)
    else:
        out, back = dentils(length)
        assert (out + back, out - back) == (halves, 1)


def placed(wide: Fraction, length: Fraction, pitch: Fraction) -> int:
    """Pieces set down one by one from one end, each a pitch from the last, until one would stick out."""
    count, left = 0, Fraction(0)
    while left + wide <= length:
        count, left = count + 1, left + pitch
    return count


SIZES = st.integers(1, 400).map(lambda n: Fraction(n, 2))


@given(SIZES, SIZES, st.integers(0, 6000))
def test_whole_pieces_in_a_length_are_those_that_can_be_set_down(wide, joint, length) -> None:
    assert pieces_in(wide, length, wide + joint) == placed(wide, Fraction(length), wide + joint)


@given(SIZES, SIZES, st.integers(1, 60))
def test_a_piece_more_stands_from_the_length_that_takes_it_no_joint_after_it(wide, joint, count) -> None:
    """Derived: n pieces and the n - 1 joints between them."""
    just = count * wide + (count - 1) * joint
    below, at, over = (pieces_in(wide, just + off, wide + joint) for off in (Fraction(-1, 1000), 0, Fraction(1, 1000)))
    assert (below, at, over) == (count - 1, count, count)


def test_pieces_that_would_stand_on_each_other_are_refused() -> None:
    assert pieces_in(65, 200, 65) == 3  # edge to edge
    for wide, pitch in ((65, 64), (0, 75), (-1, 75)):
        with pytest.raises(TradeError, match="cannot stand every"):
            pieces_in(wide, 200, pitch)


@given(st.integers(2, 60))
def test_soldiers_and_bricks_on_edge_are_the_whole_pieces_of_a_length_that_takes_them(count) -> None:
    length = Fraction(75 * count - 10)
    assert soldiers(length).pieces == on_edge(length).pieces == placed(Fraction(65), length, Fraction(75)) == count


@given(st.integers(1, 30))
def test_the_headers_of_a_dentil_course_are_the_whole_headers_of_its_length(pairs) -> None:
    length = pier(Fraction(2 * pairs + 1, 2))
    assert sum(dentils(length)) == placed(UK_METRIC.width, length, UK_METRIC.half)


def test_a_dog_tooth_course() -> None:
    tooth = dog_tooth(2000)
    assert float(tooth.pitch) == pytest.approx(math.sqrt(2) * 112.5, abs=1e-9)
    assert tooth.teeth == 12
    assert tooth.depth * 2 == tooth.pitch


@pytest.mark.parametrize("joint", [8, 10, 12])
def test_a_tooth_is_as_wide_and_as_far_from_the_next_as_bricks_drawn_at_45_degrees(joint) -> None:
    """Derived: two bricks drawn a joint apart, turned until both corners are at the face, and cut along the wall."""
    on = 102.5 + joint
    first, second = (rotate(box(-at, at, 215 - at, at + 102.5), 45, origin=(0, 0)) for at in (0, on))
    assert first.bounds[1] == pytest.approx(second.bounds[1], abs=1e-6)
    assert first.distance(second) == pytest.approx(joint, abs=1e-6)
    along = LineString([(-1000, 100), (1000, 100)])
    here, there = first.intersection(along), second.intersection(along)
    tooth = dog_tooth(2000, joint=joint)
    assert float(tooth.wide) == pytest.approx(here.length, abs=1e-6)
    assert float(tooth.pitch) == pytest.approx(here.bounds[0] - there.bounds[0], abs=1e-6)


@pytest.mark.parametrize("length", range(1500, 6001, 150))
def test_the_last_tooth_of_a_course_needs_no_joint_after_it(length) -> None:
    wide, pitch = math.sqrt(2) * 102.5, math.sqrt(2) * 112.5
    stand = [n for n in range(1, 60) if (n - 1) * pitch + wide <= length]
    assert dog_tooth(length).teeth == stand[-1]


@pytest.mark.parametrize("teeth", [1, 2, 17, 34])
def test_a_tooth_more_stands_from_the_length_that_takes_it(teeth) -> None:
    needs = math.sqrt(2) * (102.5 + (teeth - 1) * 112.5)
    assert dog_tooth(Fraction(math.ceil(needs * 1000), 1000)).teeth == teeth
    if teeth > 1:
        assert dog_tooth(Fraction(math.floor(needs * 1000), 1000)).teeth == teeth - 1


def test_stack_bond_is_bricks_by_courses() -> None:
    assert stack_bond(4, 15) == 60


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        (lambda: stack_bond("3.5", 4), "without a cut in every course"),
        (lambda: run_of(65, 100), "takes no run"),
        (lambda: run_of(65, 173), "140 and 215 mm work"),
        (lambda: dentils(900), "777.5 and 1002.5 mm work"),
        (lambda: dog_tooth(144), "takes no tooth: one needs about 144.957 mm"),
        (lambda: dog_tooth(1000, joint=0), "leaves no room for mortar"),
    ],
)
def test_what_cannot_be_built_is_told(ask, message) -> None:
    with pytest.raises(TradeError) as told:
        ask()
    assert message in str(told.value)
