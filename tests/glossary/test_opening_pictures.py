"""The opening, read back at 1 to 28: its own size, and what is beside, over, under and in it."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Stroke
from courseware.glossary import opening_pictures as opening

SCALE = 28


def hole(marks) -> tuple[tuple[float, float], ...]:
    return next(mark.outlines[0] for mark in marks if isinstance(mark, Stroke) and mark.closed and mark.fill == 1.0)


def test_the_opening_is_two_bricks_wide_and_a_joint(size) -> None:
    """460 mm: sheet-9, row 2, column CO+; six courses clear are 460 mm."""
    wide, high = size(hole(opening.opening_itself()))
    assert wide * SCALE == pytest.approx(460)
    assert high * SCALE == pytest.approx(6 * 75 + 10)


def test_the_reveal_is_the_front_part_of_the_jamb(named, size) -> None:
    [seen], [whole] = named(opening.reveal()), named(opening.jamb())
    assert size(seen)[0] < size(whole)[0]
    assert min(x for x, _ in seen) == min(x for x, _ in whole) == min(x for x, _ in hole(opening.jamb()))


def test_a_lintel_bears_on_both_sides(named, size) -> None:
    [beam] = named(opening.lintel())
    left, right = sorted(named(opening.bearing()))
    around = hole(opening.lintel())
    assert max(y for _, y in beam) == pytest.approx(min(y for _, y in around))
    assert max(x for x, _ in left) == pytest.approx(min(x for x, _ in around))
    assert min(x for x, _ in right) == pytest.approx(max(x for x, _ in around))
    assert size(beam)[0] == pytest.approx(size(around)[0] + size(left)[0] + size(right)[0])


def test_the_head_is_at_the_top_and_the_sill_at_the_foot(heavy, named) -> None:
    around = hole(opening.head())
    assert {y for _, y in heavy(opening.head())[0]} == {min(y for _, y in around)}
    assert min(y for outline in named(opening.sill()) for _, y in outline) == pytest.approx(max(y for _, y in around))


def test_the_soffit_hangs_from_the_head(named) -> None:
    [under] = named(opening.soffit())
    assert min(y for _, y in under) == pytest.approx(min(y for _, y in hole(opening.soffit())))
