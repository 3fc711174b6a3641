"""Panels and patterns: the pieces that are dark are the trade core's own."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Label, Stroke
from courseware.glossary import decorative_pictures as decorative


def test_every_piece_of_the_surround_is_dark(named) -> None:
    """4 corner pieces, 8 mitred bats and 38 half bricks: geometry, worked out apart in tests/trade/test_surround.py."""
    assert len(named(decorative.surround_itself())) == 50


def test_the_panel_is_three_bricks_by_twelve_courses(named, size) -> None:
    """An opening of 4 bricks by 15 courses holds it: three modules less a joint, twelve courses less a bed."""
    [panel] = named(decorative.panel())
    assert [side * 45 for side in size(panel)] == pytest.approx([665, 890])


def test_two_bats_meet_at_a_mitre_and_a_template_has_both_hands(named, size) -> None:
    assert len(named(decorative.mitre())) == 2
    left, right = named(decorative.template())
    assert size(left) == pytest.approx(size(right))
    assert {round(x, 3) for x, _ in left}.isdisjoint({round(x, 3) for x, _ in right})


def test_a_bay_is_a_module_less_a_joint_square(size) -> None:
    ring = decorative.bay()[-1]
    assert [side * 26 for side in size(ring.outlines[0])] == pytest.approx([215, 215])


@pytest.mark.parametrize(
    "drawn", [decorative.herringbone, decorative.dog_tooth, decorative.square_corner, decorative.diagonals]
)
def test_a_paper_s_drawing_is_made_smaller_and_loses_its_words(drawn, size) -> None:
    marks = drawn()
    assert marks
    assert not any(isinstance(mark, Label) for mark in marks)
    wide, high = size([point for mark in marks if isinstance(mark, Stroke) for outline in mark.outlines for point in outline])  # fmt: skip
    assert wide <= 46
    assert high <= 26
