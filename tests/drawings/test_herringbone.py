"""Herringbone read back: pieces as the trade core lays them, cuts hatched, the centre line in the middle."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shapely.geometry import Point, Polygon
from shapely.strtree import STRtree

from courseware.trade import clear_height, herringbone, opening
from tests.drawings.conftest import on_wall

# Bricks by courses, width (sheet-9, Table 1, CO+) and clear height of the opening, 75 a course and a bed.
OPENINGS = [(2, 6, 460, 460), (3, 9, 685, 685), (4, 12, 910, 910), (6, 18, 1360, 1360)]
ANGLES = [45, 90]
CLOSE = 0.08  # mm of wall that three places of a mm of paper leave open


def read_back(drawn, bricks: int, courses: int, wide: int, angle: int):
    return on_wall(drawn("herringbone", {}, bricks=bricks, courses=courses, angle=angle), wide)


def hatched(wall) -> tuple[list[Polygon], list[Polygon]]:
    """The pieces with hatching in them, and those without."""
    marks = STRtree([line for line, dash in wall.lines if not dash])
    cut, whole = [], []
    for piece in wall.all_pieces:
        inside = marks.query(piece.buffer(-CLOSE), predicate="intersects")
        (cut if len(inside) else whole).append(piece)
    return cut, whole


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_every_piece_is_where_the_trade_core_lays_it(drawn, bricks, courses, wide, high, angle):
    wall = read_back(drawn, bricks, courses, wide, angle)
    assert wall.frame.bounds == pytest.approx((0, 0, wide, high), abs=0.1)
    laid = herringbone(opening(bricks), clear_height(courses), angle=angle)
    expected = [Polygon([(float(x), float(y)) for x, y in piece.outline]) for piece in laid.pieces]
    drawn_pieces = wall.all_pieces
    assert len(drawn_pieces) == len(expected)
    for piece in expected:
        assert min(piece.symmetric_difference(each).area for each in drawn_pieces) < 40


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_pieces_keep_a_joint_from_each_other_and_from_the_reveals(drawn, bricks, courses, wide, high, angle):
    wall = read_back(drawn, bricks, courses, wide, angle)
    pieces = wall.all_pieces
    tree = STRtree(pieces)
    nearest = []
    for n, piece in enumerate(pieces):
        assert piece.distance(wall.frame.exterior) > 10 - CLOSE
        assert wall.frame.contains(piece)
        gaps = [piece.distance(pieces[m]) for m in tree.query(piece.buffer(12)) if m != n]
        assert min(gaps) == pytest.approx(10, abs=2 * CLOSE)
        nearest.append(sum(gap < 10 + 2 * CLOSE for gap in gaps))
    assert min(piece.distance(wall.frame.exterior) for piece in pieces) == pytest.approx(10, abs=CLOSE)
    assert max(nearest) >= 4  # a brick in the middle of the pattern has others at both ends and along both sides


def way_of(piece: Polygon) -> tuple[float, float]:
    """Which way a brick is laid: along its longest side, one mm."""
    (x1, y1), (x2, y2) = max(pairwise(piece.exterior.coords), key=lambda side: math.dist(*side))
    return (x2 - x1) / math.dist((x1, y1), (x2, y2)), (y2 - y1) / math.dist((x1, y1), (x2, y2))


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS[2:])
def test_a_brick_has_sides_across_both_its_ends_and_along_each_side_two_thirds_of_one_and_an_end(
    drawn, bricks, courses, wide, high, angle
):
    """What herringbone is. Bricks clear of the edge: a mm past the joint, in the middle of each place all round."""
    wall = read_back(drawn, bricks, courses, wide, angle)
    clear = [p for p in wall.all_pieces if p.area > 13900 and p.distance(wall.frame.exterior) > 90]
    assert clear
    for piece in clear:
        (x, y), (along, up) = piece.centroid.coords[0], way_of(piece)

        def across(on: float, off: float, x=x, y=y, along=along, up=up, piece=piece) -> bool:
            """Whether the brick that lies there is laid across this one; a place without a brick is an error."""
            there = Point(x + on * along - off * up, y + on * up + off * along)
            [other] = [p for p in wall.all_pieces if p.contains(there)]
            assert other is not piece
            other_along, other_up = way_of(other)
            return abs(along * other_along + up * other_up) < 0.1

        assert across(107.5 + 11, 0)
        assert across(-107.5 - 11, 0)
        for side in (1, -1):
            assert [across(on, side * (32.5 + 11)) for on in (-75, 0, 75)].count(True) == 1


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_cuts_are_hatched_and_whole_bricks_are_not_and_both_are_as_counted(drawn, bricks, courses, wide, high, angle):
    wall = read_back(drawn, bricks, courses, wide, angle)
    cut, whole = hatched(wall)
    laid = herringbone(opening(bricks), clear_height(courses), angle=angle)
    assert (len(whole), len(cut)) == (laid.whole, laid.cut)
    assert all(piece.area == pytest.approx(215 * 65, abs=40) for piece in whole)
    assert all(piece.area < 215 * 65 - 100 for piece in cut)


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_hatching_keeps_within_its_piece_and_runs_at_45_degrees_to_its_sides(drawn, bricks, courses, wide, high, angle):
    wall = read_back(drawn, bricks, courses, wide, angle)
    pieces = STRtree([piece.buffer(2 * CLOSE) for piece in wall.all_pieces])
    for line, dash in wall.lines:
        if dash:
            continue
        (x1, y1), (x2, y2) = line.coords
        assert len(pieces.query(line, predicate="within")) == 1
        if angle == 45:
            assert y1 == pytest.approx(y2, abs=CLOSE)
        else:
            assert x2 - x1 == pytest.approx(y2 - y1, abs=CLOSE)


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_the_centre_line_is_a_chain_line_through_the_middle_and_past_both_edges(
    drawn, bricks, courses, wide, high, angle
):
    sheet = drawn("herringbone", {}, bricks=bricks, courses=courses, angle=angle)
    [(line, dash)] = [(line, dash) for line, dash in on_wall(sheet, wide).lines if dash]
    (x1, y1), (x2, y2) = line.coords
    assert x1 == pytest.approx(wide / 2, abs=CLOSE)
    assert x2 == pytest.approx(wide / 2, abs=CLOSE)
    assert min(y1, y2) < 0
    assert max(y1, y2) > high
    long, gap, dot, last = map(float, dash.split())
    assert long > 3 * dot
    assert gap == last > 0
    assert sheet.texts == ("centre line",)
