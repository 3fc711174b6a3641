"""Pieces at 45 degrees cut to a rectangle: derived by hand, and measured by shapely beside it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from courseware.trade.exact_outline import clipped, sides_of, twice_area, within
from courseware.trade.root_two import in_figures, less

SQUARE = tuple(((a, 0), (b, 0)) for a, b in ((-2, -2), (2, -2), (2, 2), (-2, 2)))
DIAMOND = (((0, 0), (0, -2)), ((0, 2), (0, 0)), ((0, 0), (0, 2)), ((0, -2), (0, 0)))  # its corners 2√2 from the middle


def test_a_square_on_its_corner_cut_to_a_square_is_an_octagon() -> None:
    """Derived: corners 2√2 out, cut at 2, leave sides of 2√2 - 2 over, 4 - 2√2 sloping by √2."""
    piece = clipped(DIAMOND, (2, 2))
    assert len(piece) == 8
    assert sorted(map(float, map(in_figures, sides_of(piece)))) == pytest.approx(
        [4 * 2**0.5 - 4] * 4 + [(4 - 2 * 2**0.5) * 2**0.5] * 4
    )
    assert float(in_figures(twice_area(piece))) / 2 == pytest.approx(16 - 4 * (2 * 2**0.5 - 2) ** 2)


def test_what_lies_within_stays_what_it_is_and_what_lies_outside_is_gone() -> None:
    assert clipped(SQUARE, (2, 2)) == SQUARE
    assert clipped(SQUARE, (5, 5)) == SQUARE
    assert clipped(tuple((less(x, (9, 0)), y) for x, y in SQUARE), (5, 5)) == ()
    assert [within(corner, (2, 2)) for corner in (*SQUARE, DIAMOND[0])] == [True, True, True, True, False]
    assert twice_area(SQUARE) == (32, 0)
    assert twice_area(SQUARE[::-1]) == (-32, 0)


def placed(corners) -> list[tuple[float, float]]:
    return [(float(in_figures(x)), float(in_figures(y))) for x, y in corners]


def leaning(along: int, up: int, long: int, wide: int) -> tuple:
    """A piece `long` by `wide` parts of √2, turned by 45 degrees, its lowest corner at (along, up)."""
    return tuple(
        ((along + x, 0), (up + y, 0)) for x, y in ((0, 0), (long, long), (long - wide, long + wide), (-wide, wide))
    )


PLACES = st.integers(-60, 60)


@given(PLACES, PLACES, st.integers(1, 40), st.integers(1, 40), st.integers(1, 50), st.integers(1, 50))
def test_what_is_left_of_a_leaning_piece_is_what_shapely_leaves(along, up, long, wide, across, high) -> None:
    piece = leaning(along, up, long, wide)
    left = Polygon(placed(piece)).intersection(box(-across, -high, across, high))
    kept = clipped(piece, (across, high))
    assert all(within(corner, (across, high)) for corner in kept)
    assert float(in_figures(twice_area(kept))) / 2 == pytest.approx(left.area, abs=1e-6)
    if left.area:
        assert sum(map(float, map(in_figures, sides_of(kept)))) == pytest.approx(left.length, abs=1e-6)


@pytest.mark.parametrize(("out", "inside"), [((2, 0), True), ((3, 0), False), ((0, 1), True), ((0, 2), False)])
@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize("axis", [0, 1])
def test_a_corner_on_the_edge_is_within_and_one_beyond_is_not(out, inside, way, axis) -> None:
    """The rectangle reaches 2 each way: √2 is within, 2√2 is not."""
    corner = [(0, 0), (0, 0)]
    corner[axis] = (way * out[0], way * out[1])
    assert within(tuple(corner), (2, 2)) is inside


def test_sides_at_45_degrees_are_told_with_the_root_of_two() -> None:
    assert sides_of(leaning(0, 0, 3, 2)) == [(0, 3), (0, 2), (0, 3), (0, 2)]
    assert sides_of(SQUARE) == [(4, 0)] * 4
    assert sides_of(DIAMOND) == [(4, 0)] * 4  # 2√2 along, times √2
