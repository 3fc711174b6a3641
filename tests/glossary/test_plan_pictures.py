"""Walls from above, read back at 1 to 20: how thick, where they turn, and what lies between two leaves."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Stroke
from courseware.glossary import plan_pictures as plan

SCALE = 20


@pytest.mark.parametrize(
    ("drawn", "thick"), [(plan.half_brick_wall, 102.5), (plan.one_brick_wall, 215), (plan.leaf, 102.5)]
)
def test_a_wall_is_as_thick_as_its_word_says(named, size, drawn, thick: float) -> None:
    """A brick is 215 long and 102.5 wide: sheet-9."""
    assert size([point for outline in named(drawn()) for point in outline])[1] * SCALE == pytest.approx(thick)


def test_the_quoin_is_where_both_legs_meet(named) -> None:
    [corner] = named(plan.quoin())
    back = [point for outline in named(plan.returned()) for point in outline]
    assert min(x for x, _ in corner) == min(x for x, _ in back) == 0
    assert max(y for _, y in back) * SCALE == pytest.approx(-112.5)  # a joint behind the face's brick


def test_a_pier_stands_out_from_the_face_and_is_a_brick_wide(named, size) -> None:
    bound = [point for outline in named(plan.attached_pier()) for point in outline]
    assert [side * SCALE for side in size(bound)] == pytest.approx([215, 102.5])
    assert min(y for _, y in bound) > 0  # y goes down: in front of the wall


def test_a_pier_of_its_own_is_square(named, size) -> None:
    wide, high = size([point for outline in named(plan.pier()) for point in outline])
    assert wide * SCALE == high * SCALE == pytest.approx(327.5)  # sheet-9, row 1.5, column CO-


def test_the_cavity_lies_between_the_leaves_and_a_tie_reaches_both(heavy) -> None:
    gap = next(mark.outlines[0] for mark in plan.cavity() if isinstance(mark, Stroke) and mark.fill == 1.0)
    front, back = max(y for _, y in gap), min(y for _, y in gap)
    assert front * SCALE == pytest.approx(-102.5)
    for tie in heavy(plan.wall_tie()):
        assert max(y for _, y in tie) > front
        assert min(y for _, y in tie) < back
