"""A dog-tooth course read back: corners at the face, a joint between bricks, the pitch asked for on the learner's copy."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shapely.geometry import Polygon

from courseware.drawings.scale import SCALES
from courseware.trade import dog_tooth
from tests.drawings.conftest import BRICK, level_dimensions, runs

LIGHT = "#" + f"{round(BRICK * 255):02x}" * 3
CLOSE = 0.01  # mm of paper
# Length, joint, and the teeth in it; derived: a tooth is 102.5√2, each further one (102.5 + joint)√2 on.
COURSES = [(600, 10, 3), (1000, 10, 6), (3122, 8, 20), (5335, 12, 33)]


def teeth_of(sheet) -> list[Polygon]:
    found = [Polygon(points) for a, closed, points in runs(sheet.root) if closed and a["fill"] == LIGHT]
    return sorted(found, key=lambda tooth: tooth.bounds[0])


def corner_of(tooth: Polygon) -> tuple[float, float]:
    return max(tooth.exterior.coords, key=lambda point: point[1])


def scale_of(sheet) -> int:
    """From the depth that the bricks are shown to: as thick as a half-brick wall."""
    left, top, right, bottom = teeth_of(sheet)[0].bounds
    del left, right
    return min(SCALES, key=lambda n: abs(n - 102.5 / (bottom - top)))


@pytest.mark.parametrize(("length", "joint", "count"), COURSES)
def test_bricks_lie_at_45_degrees_with_a_joint_between_and_their_corners_at_the_face(
    drawn, length, joint, count
) -> None:
    assert dog_tooth(length, joint=joint).teeth == count
    sheet = drawn("dog_tooth", {}, length=length, joint=joint)
    teeth, n = teeth_of(sheet), scale_of(sheet)
    shown = min(3, (count - 1) // 2)
    assert len(teeth) == 2 * shown < count
    for end in (teeth[:shown], teeth[shown:]):
        for before, after in pairwise(end):
            assert before.distance(after) == pytest.approx(joint / n, abs=CLOSE)
            assert corner_of(after)[0] - corner_of(before)[0] == pytest.approx(
                (102.5 + joint) * math.sqrt(2) / n, abs=CLOSE
            )
    faces = [points for a, closed, points in runs(sheet.root) if not closed and a.get("stroke-dasharray")]
    assert {round(y, 2) for points in faces for _, y in points} == {round(corner_of(tooth)[1], 2) for tooth in teeth}
    for tooth in teeth:
        ring = list(tooth.exterior.coords)
        sides = [(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in pairwise(ring)]
        at_corner = [abs(abs(x) - abs(y)) for x, y in sides if abs(x) > CLOSE and abs(y) > CLOSE]
        assert len(at_corner) >= 3
        assert max(at_corner) < CLOSE


@pytest.mark.parametrize(("length", "joint", "count"), COURSES)
def test_the_first_tooth_begins_the_course_and_the_last_ends_it_but_for_what_takes_no_tooth(
    drawn, length, joint, count
) -> None:
    sheet = drawn("dog_tooth", {"length": "LONG"}, length=length, joint=joint)
    [(left, right, _)] = level_dimensions(sheet)
    teeth, n = teeth_of(sheet), scale_of(sheet)
    assert teeth[0].bounds[0] == pytest.approx(left, abs=CLOSE)
    over = length - math.sqrt(2) * (102.5 + (count - 1) * (102.5 + joint))
    assert right - teeth[-1].bounds[2] == pytest.approx(over / n, abs=CLOSE)
    assert 0 <= over < (102.5 + joint) * math.sqrt(2)


@pytest.mark.parametrize(("length", "joint", "count"), COURSES)
def test_the_pitch_is_measured_from_corner_to_corner_and_left_blank_where_it_is_asked_for(
    drawn, length, joint, count
) -> None:
    told = drawn("dog_tooth", {"pitch": "PITCH"}, length=length, joint=joint)
    [(left, right, _)] = level_dimensions(told)
    first, *rest = (corner_of(tooth)[0] for tooth in teeth_of(told))
    assert left == pytest.approx(first, abs=CLOSE)
    assert right - left == pytest.approx((102.5 + joint) * math.sqrt(2) / scale_of(told), abs=CLOSE)
    if count > 4:  # where two teeth stand together at the end
        assert right == pytest.approx(rest[0], abs=CLOSE)
    asked = drawn("dog_tooth", {"pitch": None}, length=length, joint=joint)
    assert "PITCH" in told.texts
    assert asked.texts == ("face",)
    assert len(asked.white) == 1
