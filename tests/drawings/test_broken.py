"""Runs with their middle broken out, read back: soldiers, a sill on edge, dentils. Both ends stand as they are built.

Widths, heights and joints of a UK brick: sheet-9, opening paragraph. What is drawn at the two ends is never all there is.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from shapely.geometry import Polygon

from courseware.drawings import draw
from courseware.drawings.scale import SCALES
from courseware.trade import dentils, on_edge, soldiers
from tests.drawings.conftest import BRICK, PROJECTING, SOLDIER, boxes, call_for, level_dimensions, runs

LIGHT, ON_END, DARK = ("#" + f"{round(grey * 255):02x}" * 3 for grey in (BRICK, SOLDIER, PROJECTING))
CLOSE = 0.003  # mm of paper
# Lengths in mm and the pieces in them: three soldiers to a brick, two headers (sheet-9, Table 1, CO-: 440, 890, 1115, and
# 225 a brick on from there; 1002.5 is four bricks and a half, nine headers).
SOLDIERS = [("440", 6), ("890", 12), ("1115", 15), ("2015", 27)]
HEADERS = [("552.5", 5), ("777.5", 7), ("1002.5", 9), ("3252.5", 29)]


def scale_of(piece, wide: float) -> int:
    return min(SCALES, key=lambda n: abs(n - wide / piece.width))


def ends_of(pieces):
    """The pieces left and right of the widest gap between two."""
    gaps = [after.left - before.right for before, after in pairwise(pieces)]
    cut = gaps.index(max(gaps)) + 1
    return pieces[:cut], pieces[cut:]


def check_ends(pieces, count: int, wide: float, high: float) -> int:
    """Both ends alike, a joint between pieces, at least one of them left out; the scale that they are drawn at."""
    n = scale_of(pieces[0], wide)
    left, right = ends_of(pieces)
    assert len(left) == len(right) == min(6, (count - 1) // 2)
    assert len(left) + len(right) < count
    assert right[0].left - left[-1].right > 5  # the gap is seen as one
    for end in (left, right):
        for piece in end:
            assert (piece.width, piece.height) == pytest.approx((wide / n, high / n), abs=CLOSE)
            assert piece.bottom == pytest.approx(pieces[0].bottom, abs=CLOSE)
        for before, after in pairwise(end):
            assert after.left - before.right == pytest.approx(10 / n, abs=CLOSE)
    return n


def check_broken_out(sheet, pieces) -> None:
    """Two thin lines with a zigzag stand in the gap, past the pieces at head and foot."""
    left, right = ends_of(pieces)
    zigzags = [points for _, closed, points in runs(sheet.root) if not closed and len(points) == 6]
    assert len(zigzags) == 2
    for points in zigzags:
        xs, ys = [x for x, _ in points], [y for _, y in points]
        assert left[-1].right < min(xs) < max(xs) < right[0].left
        assert min(ys) < pieces[0].top < pieces[0].bottom < max(ys)


@pytest.mark.parametrize(("length", "count"), SOLDIERS)
def test_soldiers_stand_on_a_heavy_line_with_three_under_each_stretcher(drawn, length, count) -> None:
    assert soldiers(length).pieces == count
    sheet = drawn("soldiers", {"length": "L"}, length=length)
    standing = boxes(sheet, ON_END)
    n = check_ends(standing, count, 65, 215)
    check_broken_out(sheet, standing)
    over = boxes(sheet, "none")
    left, right = ends_of(standing)
    assert len({round(stretcher.left, 1) for stretcher in over}) == len(over) == 2 * (len(left) // 3)
    for stretcher in over:
        assert stretcher.width == pytest.approx(215 / n, abs=CLOSE)
        assert stretcher.bottom == pytest.approx(standing[0].top - 10 / n, abs=CLOSE)
        under = [piece for piece in standing if stretcher.left - 0.01 < piece.left < stretcher.right]
        assert len(under) == 3
        assert (under[0].left, under[2].right) == pytest.approx((stretcher.left, stretcher.right), abs=2 * CLOSE)
    heavy = [points for a, closed, points in runs(sheet.root) if not closed and a.get("stroke-width") == "0.7"]
    assert sorted((x for points in heavy for x, _ in points)) == pytest.approx(
        [left[0].left, left[-1].right, right[0].left, right[-1].right], abs=CLOSE
    )
    assert all(y == pytest.approx(standing[0].bottom, abs=CLOSE) for points in heavy for _, y in points)


@pytest.mark.parametrize(("length", "count"), SOLDIERS)
def test_a_sill_has_bricks_on_edge_side_by_side_over_stretchers(drawn, length, count) -> None:
    assert on_edge(length).pieces == count
    sheet = drawn("sill", {"length": "L"}, length=length)
    standing = [piece for piece in boxes(sheet, LIGHT) if piece.width < piece.height]
    n = check_ends(standing, count, 65, 102.5)
    check_broken_out(sheet, standing)
    under = [piece for piece in boxes(sheet, "none") if piece.width == pytest.approx(215 / n, abs=CLOSE)]
    assert len({round(piece.left, 1) for piece in under}) == len(under) == 2 * (len(standing) // 2 // 3)
    assert all(piece.top == pytest.approx(standing[0].bottom + 10 / n, abs=CLOSE) for piece in under)


@pytest.mark.parametrize("stands", [10, 35, 60])
def test_the_sill_in_section_stands_out_to_the_front_and_falls_that_way(drawn, stands) -> None:
    """The front is to the left, as in every section; the wall is half a brick thick, a bed under the sill's front arris."""
    sheet = drawn("sill", {"stands": "S"}, length=890, stands=stands)
    [tilted] = [
        points for a, closed, points in runs(sheet.root)
        if closed and a["fill"] == LIGHT and len({round(y, 2) for _, y in points}) == 4
    ]  # fmt: skip
    wall = [piece for piece in boxes(sheet, "none") if piece.left > min(x for x, _ in tilted)]
    n = scale_of(wall[0], 102.5)
    assert Polygon(tilted).area == pytest.approx(215 * 102.5 / n**2, rel=0.001)
    front = max(sorted(tilted)[:2], key=lambda corner: corner[1])  # the lower of the two corners at the front
    back = max(sorted(tilted)[2:], key=lambda corner: corner[1])
    assert wall[0].left - front[0] == pytest.approx(stands / n, abs=0.01)
    assert front[1] > back[1]  # y runs downwards: the front is the lower
    assert min(piece.top for piece in wall) - front[1] == pytest.approx(10 / n, abs=0.01)
    upper, lower = sorted(wall, key=lambda piece: piece.top)
    assert lower.top - upper.bottom == pytest.approx(10 / n, abs=0.01)
    [(left, right, _)] = level_dimensions(sheet)
    assert (left, right) == pytest.approx((front[0], wall[0].left), abs=0.01)


@pytest.mark.parametrize(("length", "count"), HEADERS)
def test_every_other_header_stands_out_and_one_does_at_either_end(drawn, length, count) -> None:
    assert sum(dentils(length)) == count
    sheet = drawn("dentils", {"length": "L"}, length=length)
    headers = sorted([*boxes(sheet, DARK), *boxes(sheet, LIGHT)], key=lambda piece: piece.left)
    n = check_ends(headers, count, 102.5, 65)
    check_broken_out(sheet, headers)
    left, right = ends_of(headers)
    dark = boxes(sheet, DARK)
    for end in (left, right[::-1]):
        assert [piece in dark for piece in end] == [place % 2 == 0 for place in range(len(end))]
    courses = boxes(sheet, "none")
    places = {(round(stretcher.left, 1), round(stretcher.top, 1)) for stretcher in courses}
    assert len(places) == len(courses) == 4 * (len(left) // 2)
    for stretcher in courses:
        gap = min(abs(stretcher.bottom - headers[0].top), abs(stretcher.top - headers[0].bottom))
        assert gap == pytest.approx(10 / n, abs=CLOSE)
        beside = [piece for piece in headers if stretcher.left - 0.01 < piece.left < stretcher.right]
        assert (beside[0].left, beside[-1].right) == pytest.approx((stretcher.left, stretcher.right), abs=2 * CLOSE)
    assert draw(call_for("dentils", length=length)).legend == ("whole", "out")


@pytest.mark.parametrize(
    ("kind", "length", "wide"), [("soldiers", 2015, 65), ("sill", 1565, 65), ("dentils", "3252.5", 102.5)]
)
def test_the_length_runs_from_end_to_end_and_one_piece_is_measured_over_the_first(drawn, kind, length, wide) -> None:
    sheet = drawn(kind, {"length": "LONG", "each": "ONE"}, length=length)
    pieces = sorted(
        (piece for fill in (DARK, LIGHT, ON_END) for piece in boxes(sheet, fill)), key=lambda piece: piece.left
    )
    first, second = level_dimensions(sheet)
    each, whole = (first, second) if first[2] < pieces[0].top else (second, first)
    n = scale_of(pieces[0], wide)
    assert each[:2] == pytest.approx((pieces[0].left, pieces[0].left + wide / n), abs=CLOSE)
    front = [piece for piece in pieces if piece.top == pytest.approx(pieces[0].top, abs=CLOSE)]
    assert whole[:2] == pytest.approx((front[0].left, front[-1].right), abs=CLOSE)
    assert {"LONG", "ONE"} <= set(sheet.texts)
