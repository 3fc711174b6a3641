"""The wall from the front, read back: joints, lengths and bonds have the sizes that the trade gives them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from courseware.glossary import wall_pictures as wall
from courseware.glossary.emphasis import BRICK

SCALE, NEAR = 20, 12  # of the whole wall, and of the few bricks in which joints are shown


def bricks(marks, fill: float) -> list[tuple[float, float, float, float]]:
    return [
        (min(x for x, _ in o), max(x for x, _ in o), min(y for _, y in o), max(y for _, y in o))
        for mark in marks if getattr(mark, "fill", None) == fill and mark.closed for o in mark.outlines
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("drawn", "scale", "wide", "high"),
    [(wall.perp, NEAR, 10, 65), (wall.bed, NEAR, 2.5 * 225 - 10, 10), (wall.stretcher, SCALE, 215, 65), (wall.header, SCALE, 102.5, 65)],
)  # fmt: skip
def test_a_thing_has_its_size(named, size, drawn, scale: int, wide: float, high: float) -> None:
    """UK metric bricks of 215 × 102.5 × 65 with 10 mm joints: sheet-9."""
    [one] = named(drawn())
    assert [side * scale for side in size(one)] == pytest.approx([wide, high])


@pytest.mark.parametrize(
    ("drawn", "scale", "long", "source"),
    [
        (wall.module, NEAR, 225, "sheet-9"),
        (wall.gauge, SCALE, 300, "livery-glossary: four courses to 300 mm"),
        (wall.lap, NEAR, 112.5, "livery-glossary: stretcher bond laps half a brick"),
    ],
)
def test_a_length_is_as_long_as_its_word_says(heavy, size, drawn, scale: int, long: float, source: str) -> None:
    assert max(size(heavy(drawn())[0])) * scale == pytest.approx(long), source


def test_courses_of_english_bond_go_by_turns(named) -> None:
    """livery-glossary: headers over stretchers, by turns."""
    rows = {round(min(y for _, y in outline), 3) for outline in named(wall.english_bond())}
    assert len(rows) == 3
    whole, heads = bricks(wall.english_bond(), BRICK), bricks(wall.english_bond(), 0.3)
    assert len(set(whole) - set(heads)) == 3 * 4


def test_a_queen_closer_stands_second_in_its_course(named, size) -> None:
    for outline in named(wall.queen_closers()):
        assert size(outline)[0] * SCALE == pytest.approx(46.25)
        assert min(x for x, _ in outline) * SCALE == pytest.approx(112.5)


def test_flemish_bond_has_header_and_stretcher_by_turns() -> None:
    """In every course; and each header, but for those at the ends, stands over the middle of a stretcher."""
    whole = [b for b in bricks(wall.flemish_bond(), BRICK) if (b[1] - b[0]) * SCALE > 200]
    heads = bricks(wall.flemish_bond(), 0.3)
    inside = [b for b in heads if b[0] > 0 and b[1] * SCALE < 889]
    assert len(inside) == 9
    for left, right, _, foot in inside:
        below = [b for b in whole if 0 < (b[2] - foot) * SCALE < 11]
        over = [b for b in below if b[0] < (left + right) / 2 < b[1]]
        assert all((b[0] + b[1]) / 2 == pytest.approx((left + right) / 2) for b in over)


@pytest.mark.parametrize("drawn", [wall.stretcher_bond, wall.flemish_bond, wall.english_bond, wall.broken_bond])
def test_no_perp_stands_over_another_where_there_is_bond(drawn) -> None:
    laid = [*bricks(drawn(), BRICK), *bricks(drawn(), 0.3)]
    rows: dict[float, list[float]] = {}
    for left, _, top, _ in laid:
        if left > 0.01:
            rows.setdefault(round(top, 2), []).append(round(left * SCALE, 1))
    ordered = [rows[key] for key in sorted(rows)]
    assert len(ordered) == 6
    assert all(not set(one) & set(other) for one, other in pairwise(ordered))


def test_a_straight_joint_has_all_its_perps_in_line(named) -> None:
    assert len({round(min(x for x, _ in outline), 3) for outline in named(wall.straight_joint())}) == 1


def test_every_other_course_is_toothed(named) -> None:
    assert len(named(wall.toothing())) == 3


def test_racking_back_goes_down_by_half_a_brick_a_course(heavy, size) -> None:
    [steps] = heavy(wall.racking_back())
    wide, high = size(steps)
    assert wide * SCALE == pytest.approx(5 * 112.5)
    assert high * SCALE == pytest.approx(6 * 75)


def test_all_courses_of_a_wall_are_as_long(named) -> None:
    """Four bricks between stopped ends are 890 mm: sheet-9, row 4."""
    for drawn in (wall.stretcher_bond, wall.flemish_bond, wall.english_bond, wall.stack_bond):
        laid = [*bricks(drawn(), BRICK), *bricks(drawn(), 0.3)]
        for top in {round(b[2], 2) for b in laid}:
            row = [b for b in laid if round(b[2], 2) == top]
            assert (max(b[1] for b in row) - min(b[0] for b in row)) * SCALE == pytest.approx(890)


def test_a_dentil_course_has_every_other_header_out(named) -> None:
    assert len(named(wall.dentil_course())) == 4


@pytest.mark.parametrize("drawn", [wall.soldier, wall.brick_on_edge])
def test_bricks_that_stand_or_lie_on_edge_are_65_mm_wide(named, size, drawn) -> None:
    assert all(size(outline)[0] * SCALE == pytest.approx(65) for outline in named(drawn()))
