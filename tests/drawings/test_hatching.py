"""Hatching: within what is cut, at 45 degrees, never nearer than lines may stand."""

from __future__ import annotations

from itertools import pairwise

import pytest
from shapely.geometry import LineString, Polygon

from courseware.drawings.hatching import hatching

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


@pytest.mark.parametrize("apart", [0.1, 0.69, 0.7, 0.71, 1.6])
def test_lines_are_not_nearer_than_the_standard_lets_them(apart) -> None:
    """iso-128: not under 0.7 mm. The lines lie at 45 degrees, where `apart` is measured along a side."""
    lines = [LineString(line) for line in hatching(SQUARE, apart=apart).outlines]
    assert all(a.distance(b) >= 0.7 - 1e-9 for a, b in pairwise(lines))
    for line in lines:
        (x1, y1), (x2, y2) = line.coords
        assert x2 - x1 == pytest.approx(y1 - y2)  # lower left to upper right, y downwards
        assert Polygon(SQUARE).buffer(1e-6).covers(line)


@pytest.mark.parametrize("level", [True, False])
def test_a_piece_too_small_for_two_lines_of_hatching_has_one_through_its_middle(level) -> None:
    stroke = hatching(((0.0, 0.0), (0.4, 0.0), (0.4, 0.4)), apart=1.2, level=level)
    [line] = stroke.outlines
    assert LineString(line).length > 0.1
    assert Polygon([(0, 0), (0.4, 0), (0.4, 0.4)]).buffer(1e-6).contains(LineString(line))
