"""The scale of a drawing: the largest usual one at which it fits its room, or a share of it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.drawings.scale import SCALES, in_a_share_of_its_room, one_to


@pytest.mark.parametrize(("wide", "scale"), [(999, 10), (1000, 10), (1001, 15)])
def test_brickwork_that_just_fits_keeps_the_larger_scale(wide: int, scale: int) -> None:
    """Scales are those of ISO 5455, and the steps between that scale rules carry (common practice, no source)."""
    assert one_to(wide, 100, (100, 50)) == scale


def test_a_share_of_the_room_makes_the_scale_smaller_and_only_there() -> None:
    assert one_to(1000, 100, (100, 50)) == 10
    with in_a_share_of_its_room(0.5):
        assert one_to(1000, 100, (100, 50)) == 20
    assert one_to(1000, 100, (100, 50)) == 10


def test_the_whole_room_is_back_after_a_drawing_that_fits_at_no_scale() -> None:
    with pytest.raises(ValueError, match="fits no usual scale"), in_a_share_of_its_room(0.01):
        one_to(Fraction(5000), 100, (100, 50))
    assert one_to(Fraction(5000), 100, (100, 50)) == 50
    assert max(SCALES) >= 50
