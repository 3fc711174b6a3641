"""A wall with two openings between its returns, read back: each length where it belongs, lintels over the openings."""

import pytest

from courseware.drawings.scale import SCALES
from courseware.drawings.windows import along
from courseware.trade import opening, pier, returned
from tests.drawings.conftest import boxes, level_dimensions, plumb_dimensions, runs

CASES = [("2", "5", "2"), ("4", "12", "4"), ("3", "4.5", "1.5")]
LINTEL = "#b2b2b2"


@pytest.mark.parametrize(("end", "window", "middle"), CASES)
def test_the_lengths_follow_one_another_from_corner_to_corner(calling, end, window, middle) -> None:
    found = along(calling("windows", {}, end=end, window=window, middle=middle))
    sizes = {name: right - left for name, (left, right) in found.items()}
    assert (sizes["end"], sizes["window"], sizes["pier"]) == (returned(end), opening(window), pier(middle))
    assert sizes["other_window"] == sizes["window"]
    assert found["end"][1] == found["window"][0]
    assert found["window"][1] == found["pier"][0]
    assert found["pier"][1] == found["other_window"][0]
    assert found["whole"][1] - found["other_window"][1] == sizes["end"]


@pytest.mark.parametrize(("end", "window", "middle"), CASES)
def test_a_lintel_bears_150_on_both_sides_of_each_opening(drawn, end, window, middle) -> None:
    sheet = drawn("windows", {}, end=end, window=window, middle=middle)
    lintels = boxes(sheet, LINTEL)
    white = boxes(sheet, "#ffffff")
    holes = [box for box in white if any(over.left < box.left and box.right < over.right for over in lintels)]
    assert len(lintels) == len(holes) == 2
    n = min(SCALES, key=lambda n: abs(n - float(opening(window)) / holes[0].width))
    for lintel, hole in zip(lintels, holes, strict=True):
        assert lintel.bottom == pytest.approx(hole.top, abs=0.01)
        assert ((hole.left - lintel.left) * n, (lintel.right - hole.right) * n) == pytest.approx((150, 150), abs=0.5)


def test_a_wall_that_is_still_rising_is_open_above_and_has_no_lintel(drawn) -> None:
    sheet = drawn("windows", {"height": None}, end=3, window=5, middle=3, courses=20)
    assert not boxes(sheet, LINTEL)
    [face] = [points for _, closed, points in runs(sheet.root) if closed and len(points) == 12]
    [ends] = plumb_dimensions(sheet).values()
    ys = [y for _, y in face]
    assert ends == pytest.approx([max(ys), min(ys)], abs=0.02)
    levels = sorted({round(y, 2) for y in ys})
    assert len(levels) == 3  # the ground, the sills, the top


def test_a_door_stands_on_the_ground(drawn) -> None:
    sheet = drawn("windows", {}, end=3, window=5, middle=3, courses=20, opens="door")
    [face] = [points for _, closed, points in runs(sheet.root) if closed and len(points) == 12]
    assert len({round(y, 2) for _, y in face}) == 2


@pytest.mark.parametrize(("marked", "size"), [("end", returned(3)), ("window", opening(5)), ("pier", pier(4))])
def test_the_length_that_is_asked_about_is_pointed_out_without_its_figure(drawn, marked, size) -> None:
    sheet = drawn("windows", {}, end=3, window=5, middle=4, courses=20, marked=marked)
    assert sheet.texts == ("this length",)
    [(left, right, _)] = level_dimensions(sheet)
    whole = drawn("windows", {"whole": "W"}, end=3, window=5, middle=4, courses=20)
    [(start, end, _)] = level_dimensions(whole)
    n = float(2 * returned(3) + 2 * opening(5) + pier(4)) / (end - start)
    assert (right - left) * n == pytest.approx(float(size), rel=0.003)


@pytest.mark.parametrize(("dimension", "size"), [("window_and_pier", opening(5) + pier(4)), ("end", returned(3))])
def test_a_dimension_measures_what_it_names(drawn, dimension, size) -> None:
    sheet = drawn("windows", {dimension: "MARK", "whole": "W"}, end=3, window=5, middle=4)
    short, whole = sorted(level_dimensions(sheet), key=lambda found: found[1] - found[0])
    n = float(2 * returned(3) + 2 * opening(5) + pier(4)) / (whole[1] - whole[0])
    assert (short[1] - short[0]) * n == pytest.approx(float(size), rel=0.003)
