"""A gap to be filled, read back: to scale, something over it, and not a brick to count."""

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import level_dimensions, plumb_dimensions, runs

CASES = [(685, 760), (2035, 1810), (1922, 2417), (100, 100), (6000, 4000)]


def parts(sheet):
    """The gap, the lintel over it and the wall round it, by their fills."""
    gaps = [p for a, closed, p in runs(sheet.root) if closed and a.get("stroke-width") == "0.35"]
    lintels = [
        p for a, closed, p in runs(sheet.root) if closed and a.get("stroke-width") == "0.25" and a["fill"] != "#ffffff"
    ]
    [gap], [lintel] = gaps, lintels
    return gap, lintel


def span(points, axis):
    found = [point[axis] for point in points]
    return min(found), max(found)


@pytest.mark.parametrize(("width", "height"), CASES)
def test_the_gap_is_to_scale_and_the_lintel_bears_on_both_sides(drawn, width, height) -> None:
    gap, lintel = parts(drawn("gap", {}, width=width, height=height))
    (left, right), (top, bottom) = span(gap, 0), span(gap, 1)
    n = min(SCALES, key=lambda n: abs(n - width / (right - left)))
    assert ((right - left) * n, (bottom - top) * n) == pytest.approx((width, height), abs=1)
    assert span(lintel, 1)[1] == pytest.approx(top, abs=0.01)
    assert span(lintel, 0)[0] < left
    assert span(lintel, 0)[1] > right


@pytest.mark.parametrize(("width", "height"), CASES)
def test_no_brick_stands_beside_it(drawn, width, height) -> None:
    sheet = drawn("gap", {}, width=width, height=height)
    assert len([1 for _, closed, _ in runs(sheet.root) if closed]) == 3  # the wall, the gap, the lintel


def test_its_sizes_are_those_of_the_gap_off_the_wall_round_it(drawn) -> None:
    sheet = drawn("gap", {"width": "W", "height": "H"}, width=1360, height=1210)
    gap, _ = parts(sheet)
    [(left, right, line)] = level_dimensions(sheet)
    assert (left, right) == pytest.approx(span(gap, 0), abs=0.02)
    assert line > span(gap, 1)[1] + 5
    [ends] = plumb_dimensions(sheet).values()
    assert ends == pytest.approx([span(gap, 1)[1], span(gap, 1)[0]], abs=0.02)
