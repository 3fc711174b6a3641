"""A course from above, read as shapes: what is bonded, what turns at the ends."""

from __future__ import annotations

import itertools
from fractions import Fraction

import pytest
from shapely.geometry import box
from shapely.ops import unary_union

from courseware.jobs.from_above import course_from_above, turned
from courseware.jobs.support import support_bricks
from courseware.trade import GERMAN_NF, UK_METRIC, US_MODULAR


@pytest.mark.parametrize("support", ["returns", "piers"])
@pytest.mark.parametrize("bricks", [Fraction(5), Fraction(13, 2), Fraction(8)])
@pytest.mark.parametrize("brick", [UK_METRIC, GERMAN_NF, US_MODULAR])
def test_a_support_is_bonded_with_the_wall(support: str, bricks: Fraction, brick) -> None:
    """Of two courses from above: bricks a joint apart, as many as are ordered, and no joint over another at the ends."""
    courses = [course_from_above(bricks, row, brick, support) for row in (0, 1)]
    for course in courses:
        boxes = _boxes(course)
        assert unary_union(boxes).area == pytest.approx(sum(one.area for one in boxes))
        near = [a.distance(b) for a, b in itertools.combinations(boxes, 2)]
        assert min(near) == pytest.approx(float(brick.perpend))
        laid = sum(Fraction(1, 2) if one.half else Fraction(1) for one in course)
        assert laid == bricks + support_bricks(support, 1)
    joint = float(brick.perpend)
    outlines = [unary_union(_boxes(course)).buffer(joint / 2, join_style="mitre") for course in courses]
    assert outlines[0].symmetric_difference(outlines[1]).area == pytest.approx(0, abs=1)
    joints = [shape.difference(unary_union(_boxes(course))) for shape, course in zip(outlines, courses, strict=True)]
    over = joints[0].intersection(joints[1]).intersection(outlines[0].buffer(-joint))
    # Joints cross. Inside a pier alone, where wall and pier meet, one lies on another for half a brick beside the header.
    longest = joint if support == "returns" else float(brick.half)
    assert all(max(x1 - x0, y1 - y0) <= longest + 0.01 for x0, y0, x1, y1 in (one.bounds for one in _parts(over)))


def _boxes(course) -> list:
    return [box(float(b.left), float(b.front), float(b.right), float(b.back)) for b in course]


def _parts(shape) -> list:
    return [one for one in getattr(shape, "geoms", [shape]) if not one.is_empty]


def test_ends_turn_where_a_course_would_end_on_half_a_brick() -> None:
    assert [turned(Fraction(8), row) for row in (0, 1, 2)] == [(False, False), (True, True), (False, False)]
    assert [turned(Fraction(17, 2), row) for row in (0, 1)] == [(False, True), (True, False)]
