"""Herringbone: set out from the centre line, cut where it must be, counted as placed. shapely measures beside it."""

from __future__ import annotations

import math
from collections import Counter
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import affine_transform, rotate, translate
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from courseware.trade import AUSTRALIAN, Format, TradeError, clear_height, herringbone, opening

BRICK = 215 * 65
JOINT = 10
OPENINGS = [(bricks, courses) for bricks in (2, 3, 4, 5, 6) for courses in (6, 9, 12, 13, 18)]
REPEAT = 75 * math.sqrt(2)  # mm from a brick at 45 degrees to the next one over it: derived


def polygons(laid) -> list[Polygon]:
    return [Polygon([(float(x), float(y)) for x, y in piece.outline]) for piece in laid.pieces]


def drawn_apart(wide: float, high: float, at: tuple[float, float], angle: int) -> list[Polygon]:
    """The pattern drawn by itself and cut by shapely, `at` (in places of 75 mm) in the middle of the opening.

    Derived: a brick lies where three places in a row are its, one stands at the end of it, and so on by one along and
    one up. What is left of a brick is a piece where it is thicker than a joint along its longest side.
    """
    inner = box(JOINT, JOINT, wide - JOINT, high - JOINT)
    lying, standing = box(5, 5, 220, 70), box(5, 5, 70, 220)
    found = []
    for x in range(-25, 25):
        for y in range(-25, 25):
            brick = {0: lying, 5: standing}.get((x - y) % 6)
            if brick is None:
                continue
            placed = translate(brick, 75 * (x - at[0]), 75 * (y - at[1]))
            turned = translate(rotate(placed, 90 - angle, origin=(0, 0)), wide / 2, high / 2)
            piece = turned.intersection(inner)
            if piece.area > 1e-6 and piece.area > JOINT * longest_side(piece):
                found.append(piece)
    return found


def longest_side(shape: Polygon) -> float:
    ring = list(shape.exterior.coords)
    return max(math.dist(here, there) for here, there in pairwise(ring))


def alike(one: list[Polygon], other: list[Polygon]) -> bool:
    """Whether the two lists are of the same outlines, in any order."""
    left = list(other)
    for shape in one:
        match = next((n for n, each in enumerate(left) if shape.symmetric_difference(each).area < 0.01), None)
        if match is None:
            return False
        left.pop(match)
    return not left


@settings(max_examples=25)
@given(st.integers(3, 6), st.integers(6, 18), st.sampled_from([45, 90]))
def test_it_fills_its_opening_with_bricks_a_joint_apart(bricks, courses, angle) -> None:
    wide, high = opening(bricks), clear_height(courses)
    shapes = polygons(herringbone(wide, high, angle=angle))
    inner = box(10, 10, float(wide) - 10, float(high) - 10)
    assert all(shape.is_valid and shape.exterior.is_ccw for shape in shapes)
    assert all(inner.buffer(1e-6).contains(shape) for shape in shapes)
    for index, shape in enumerate(shapes):
        assert all(shape.distance(other) > 10 - 1e-6 for other in shapes[index + 1 :])
    widened = unary_union([shape.buffer(5.001, join_style="mitre") for shape in shapes])
    assert inner.difference(widened).area < 0.04 * inner.area  # slivers thinner than a joint, filled with mortar


@settings(max_examples=25)
@given(st.integers(3, 6), st.integers(6, 18), st.sampled_from([45, 90]))
def test_it_counts_what_it_places(bricks, courses, angle) -> None:
    laid = herringbone(opening(bricks), clear_height(courses), angle=angle)
    areas = [shape.area for shape in polygons(laid)]
    assert laid.whole == sum(1 for area in areas if area > BRICK - 1e-3)
    assert laid.cut == sum(laid.shapes) == len(areas) - laid.whole
    assert float(laid.waste_percent) == pytest.approx(100 * (1 - sum(areas) / (BRICK * len(areas))), abs=1e-6)


# Where the middle of the panel lies in the pattern, in places. At 45 degrees rows are 159.1 mm wide, so an opening of 685
# has 4.2 of them and takes a row in its middle, one of 910 has 5.6 and takes the line between two. At 90 degrees rows
# are 75: nine of them have one in the middle, twelve have not. Derived.
MIDDLES = [
    (3, 9, 45, (1.5, 0.5)),
    (4, 9, 45, (0, 0.5)),
    (5, 12, 45, (0, 0.5)),
    (6, 12, 45, (1.5, 0.5)),
    (3, 9, 90, (1.5, 0.5)),
    (4, 12, 90, (2, 1)),
    (3, 12, 90, (1.5, 1)),
    (4, 9, 90, (2, 1.5)),
]


@pytest.mark.parametrize(("bricks", "courses", "angle", "middle"), MIDDLES)
def test_the_exact_pieces_are_those_that_are_cut_in_floats(bricks, courses, angle, middle) -> None:
    wide, high = opening(bricks), clear_height(courses)
    laid = herringbone(wide, high, angle=angle)
    cut = drawn_apart(float(wide), float(high), middle, angle)
    assert alike(polygons(laid), cut)
    assert laid.shapes == tuple(
        sorted(Counter(round(s.area, 1) for s in cut if s.area < BRICK - 1).values(), reverse=True)
    )


@pytest.mark.parametrize(("bricks", "courses"), OPENINGS)
def test_level_and_plumb_it_takes_bats_of_65_and_140_alone(bricks, courses) -> None:
    """A textbook's page on herringbone panels (tests/authorities/herringbone-bats.txt)."""
    for shape in polygons(herringbone(opening(bricks), clear_height(courses), angle=90)):
        left, low, right, top = shape.bounds
        sides = sorted((round(right - left, 6), round(top - low, 6)))
        assert shape.area == pytest.approx(sides[0] * sides[1])
        assert sides in ([65, 65], [65, 140], [65, 215])


@pytest.mark.parametrize(("bricks", "courses", "angle", "middle"), MIDDLES)
def test_turned_half_round_the_panel_is_the_same_where_a_brick_or_a_bed_is_in_its_middle(
    bricks, courses, angle, middle
) -> None:
    wide, high = opening(bricks), clear_height(courses)
    shapes = polygons(herringbone(wide, high, angle=angle))
    turned = [rotate(shape, 180, origin=(float(wide) / 2, float(high) / 2)) for shape in shapes]
    assert alike(shapes, turned) is (middle in ((1.5, 0.5), (2, 1)))


@pytest.mark.parametrize("courses", [9, 12, 18])
@pytest.mark.parametrize("bricks", [4, 5])
def test_what_is_cut_on_the_right_is_the_mirror_image_of_the_left_half_a_repeat_higher(bricks, courses) -> None:
    """At 45 degrees with the centre line between two rows: all that keeps clear of sill and head, and so stays whole."""
    wide, high = opening(bricks), clear_height(courses)
    shapes = polygons(herringbone(wide, high))
    middle = [s for s in shapes if s.bounds[1] > JOINT + REPEAT and s.bounds[3] < float(high) - JOINT - REPEAT]
    assert any(s.bounds[0] < JOINT + 1 for s in middle)  # pieces that were cut at the side are among them
    for shape in middle:
        mirrored = affine_transform(shape, [-1, 0, 0, 1, float(wide), REPEAT / 2])
        assert any(mirrored.symmetric_difference(other).area < 0.01 for other in shapes)


@pytest.mark.parametrize("bricks", [4, 5])
def test_the_centre_line_between_two_rows_lies_midway_between_their_points(bricks) -> None:
    """The corners of whole bricks next to the line stand on its left as they do on its right."""
    middle = float(opening(bricks)) / 2
    shapes = polygons(herringbone(opening(bricks), 1360))
    corners = [x - middle for s in shapes if s.area > BRICK - 1 for x, _ in s.exterior.coords]
    near = sorted({round(x, 3) for x in corners if abs(x) < 75})
    assert near
    assert [-x for x in reversed(near)] == pytest.approx(near)


def test_the_control_line_of_boards_5_by_15_lies_1_and_3_quarters_from_the_points() -> None:
    """A floor layers' page (tests/authorities/herringbone-control-line.txt), which rounds 1.77 to the quarter.

    Inches stand for millimetres; boards have no joint, and the room is one whose line lies between two rows.
    """
    board = Format("boards", 15, 5, 5, perpend=0, bed=0)
    wide = 40
    points = {
        round(abs(float(x) - wide / 2), 6) for piece in herringbone(wide, 60, board).pieces for x, _ in piece.outline
    }
    assert min(points) == pytest.approx(1.75, abs=0.05)


def test_every_whole_brick_lies_square_or_at_45_degrees() -> None:
    for angle in (45, 90):
        for piece in herringbone(1135, 1135, angle=angle).pieces:
            (x1, y1), (x2, y2), *_ = piece.outline
            if piece.whole:
                assert round(math.degrees(math.atan2(float(y2 - y1), float(x2 - x1)))) % 90 == angle % 90


@pytest.mark.parametrize("wide", ["797.5", 722, 1003])
def test_a_width_that_works_to_no_whole_brick_has_its_cuts_alike_at_both_sides(wide) -> None:
    """Level and plumb: what is left of a brick's height at one side is left at the other, and more than half of it."""
    shapes = polygons(herringbone(wide, 910, angle=90))
    across = float(Fraction(wide))
    strips = [
        min(s.bounds[2] - s.bounds[0] for s in shapes if side(s))
        for side in (lambda s: s.bounds[0] < JOINT + 1e-6, lambda s: s.bounds[2] > across - JOINT - 1e-6)
    ]
    assert strips[0] == pytest.approx(strips[1])
    assert strips[0] > 65 / 2 - JOINT / 2


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        (lambda: herringbone(910, 910, angle=60), "use 45 or 90"),
        (lambda: herringbone(200, 910), "a brick of 215 mm and its joints must fit both ways"),
        (lambda: herringbone(910, 234), "a brick of 215 mm and its joints must fit both ways"),
        (lambda: herringbone(910, 910, AUSTRALIAN), "do not close in Australian"),
    ],
)
def test_what_cannot_be_laid_is_told(ask, message) -> None:
    with pytest.raises(TradeError) as told:
        ask()
    assert message in str(told.value)


def test_an_opening_that_takes_just_one_brick_either_way_is_laid() -> None:
    assert herringbone(235, 235, angle=90).bricks > 0
