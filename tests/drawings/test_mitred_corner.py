"""Mitred corners read back: bats about the line that halves the corner, a joint apart, each the other's mirror image."""

from __future__ import annotations

import math

import pytest
from shapely import affinity
from shapely.geometry import LineString, Polygon

from courseware.trade import GERMAN_NF, UK_METRIC
from tests.drawings.conftest import HALF_BRICK, PROJECTING, outlines, pens, runs

ONE_TO = 5
CLOSE = 0.02  # mm of paper
CORNERS = [80, 88, 90, 96, 102, 112]
# DIN 4172: three pieces of 71 to 250 mm leave 12 1/3 a joint; UK: three of 65 to 225 leave 10
JOINTS = [(UK_METRIC, 10.0), (GERMAN_NF, 37 / 3)]


def halving(sheet) -> LineString:
    [line] = pens(sheet, "0.18", dashed=True)
    return line


def mirrored(piece: Polygon, line: LineString) -> Polygon:
    """The piece turned over about a line."""
    (x1, y1), (x2, y2) = line.coords[0], line.coords[-1]
    turn = math.degrees(math.atan2(y2 - y1, x2 - x1))
    level = affinity.rotate(piece, -turn, origin=(x1, y1))
    return affinity.rotate(affinity.scale(level, 1, -1, origin=(x1, y1)), turn, origin=(x1, y1))


@pytest.mark.parametrize(("brick", "joint"), JOINTS)
@pytest.mark.parametrize("corner", CORNERS)
def test_bats_stand_half_a_joint_from_the_line_that_halves_the_corner_and_mirror_each_other(
    drawn, corner, brick, joint
) -> None:
    sheet = drawn("mitred_corner", {}, brick, corner=corner)
    one, other = outlines(sheet, PROJECTING)
    line = halving(sheet)
    assert mirrored(one, line).symmetric_difference(other).area < 0.5
    assert one.distance(other) == pytest.approx(joint / ONE_TO, abs=CLOSE)
    for bat in (one, other):
        assert bat.distance(line) == pytest.approx(joint / 2 / ONE_TO, abs=CLOSE)


@pytest.mark.parametrize("corner", CORNERS)
def test_its_runs_meet_at_the_corner_asked_for(drawn, corner) -> None:
    """The outer edges of the two half bricks are the outer edges of the runs, and meet at the corner's angle."""
    sheet = drawn("mitred_corner", {}, corner=corner)
    directions = []
    for piece in outlines(sheet, HALF_BRICK):
        (x1, y1), (x2, y2) = piece.exterior.coords[0], piece.exterior.coords[1]
        directions.append(math.degrees(math.atan2(y2 - y1, x2 - x1)))
    assert abs(directions[0] - directions[1]) == pytest.approx(corner, abs=0.1)


@pytest.mark.parametrize(
    ("gap", "least", "most"), [("touching", 0, 0), ("joint", 10, 10), ("double", 20, 20), ("gaping", 0, 12)]
)
def test_the_gap_is_that_of_the_fault(drawn, gap, least, most) -> None:
    """How far the two ends of the cut are from the other bat, the nearer and the farther, in mm of wall."""
    one, other = outlines(drawn("mitred_corner", {}, gap=gap), PROJECTING)
    line = halving(drawn("mitred_corner", {}, gap=gap))
    near = sorted(
        (point for point in zip(*one.exterior.coords.xy, strict=True)), key=lambda p: line.distance(LineString([p, p]))
    )
    ends = list(dict.fromkeys(near))[:2]
    apart = sorted(2 * ONE_TO * line.distance(LineString([end, end])) for end in ends)
    assert apart[0] == pytest.approx(least, abs=0.2)
    assert apart[1] == pytest.approx(most, abs=0.2) if gap != "gaping" else apart[1] > most
    assert one.intersection(other).area < 0.01


def test_no_two_pieces_lie_on_one_another(drawn) -> None:
    for corner in CORNERS:
        sheet = drawn("mitred_corner", {}, corner=corner)
        pieces = [*outlines(sheet, HALF_BRICK), *outlines(sheet, PROJECTING), *outlines(sheet, 1.0)]
        assert len(pieces) == 5
        for place, piece in enumerate(pieces):
            for other in pieces[place + 1 :]:
                assert piece.distance(other) > 1.9  # a joint of 10 mm, on paper


# Leg of the cut: depth less width less joint, and half a joint at 45 degrees (geometry; no source).
@pytest.mark.parametrize(
    ("brick", "wide", "deep", "leg"),
    [(UK_METRIC, 65, 102.5, 27.5 + 5 * math.sqrt(2)), (GERMAN_NF, 71, 115, 115 - 71 - 37 / 3 + 37 / 6 * math.sqrt(2))],
)
def test_two_hands_are_one_bat_turned_over_with_what_is_cut_off_dashed(drawn, brick, wide, deep, leg) -> None:
    sheet = drawn("bat_hands", {}, brick)
    left, right = outlines(sheet, PROJECTING)
    *off, mirror = pens(sheet, "0.18", dashed=True)
    assert mirrored(left, mirror).symmetric_difference(right).area < 0.5
    assert len(off) == 2
    for bat, dashed in zip((left, right), off, strict=True):
        assert bat.area * ONE_TO**2 == pytest.approx(wide * deep - leg**2 / 2, rel=1e-3)
        whole = bat.union(Polygon(dashed.coords)).bounds
        assert (whole[2] - whole[0]) * ONE_TO == pytest.approx(wide, abs=0.1)
        assert (whole[3] - whole[1]) * ONE_TO == pytest.approx(deep, abs=0.1)
        assert abs(dashed.centroid.x - mirror.centroid.x) < abs(bat.centroid.x - mirror.centroid.x)
    assert sheet.texts == ("left hand", "right hand")


def test_the_board_has_the_joint_about_the_halving_line_and_the_bat_within_the_lines(drawn) -> None:
    sheet = drawn("template_lines", {})
    line = halving(sheet)
    about = pens(sheet, "0.25")
    assert [side.distance(line) * ONE_TO for side in about] == pytest.approx([5, 5], abs=0.1)
    assert about[0].distance(about[1]) * ONE_TO == pytest.approx(10, abs=0.1)
    [bat] = outlines(sheet, HALF_BRICK)
    assert bat.distance(line) * ONE_TO == pytest.approx(5, abs=0.1)
    assert bat.bounds[3] - bat.bounds[1] == pytest.approx(102.5 / ONE_TO, abs=CLOSE)
    board = max(outlines_without_fill(sheet), key=lambda found: found.area)
    assert board.contains(bat)
    assert all(board.contains(line) for line in (*about, *pens(sheet, "0.35"), *pens(sheet, "0.18")))


def outlines_without_fill(sheet) -> list[Polygon]:
    return [
        Polygon(points) for attributes, closed, points in runs(sheet.root) if closed and attributes["fill"] == "none"
    ]


@pytest.mark.parametrize("told", ["92°", None])
def test_the_corner_is_told_and_the_cut_left_to_find(drawn, told) -> None:
    sheet = drawn("mitred_corner", {"corner": "92°", "cut": told and "46°"}, corner=92)
    assert sheet.texts == (("92°", "46°") if told else ("92°",))
    wide, high = 20.0, 7.5
    blanks = [box for box in sheet.white if (round(box.width, 2), round(box.height, 2)) == (wide, high)]
    assert len(blanks) == (0 if told else 1)
