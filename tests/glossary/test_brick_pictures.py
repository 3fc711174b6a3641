"""The brick and its pieces: sizes by the trade core, read back at the scale of the pictures (1 to 5.5)."""

from __future__ import annotations

import pytest

from courseware.glossary import brick_pictures as brick

SCALE = 5.5


@pytest.mark.parametrize(
    ("drawn", "long", "source"),
    [
        (brick.bat, 102.5, "sheet-9: half a module less the joint"),
        (brick.three_quarter_bat, 158.75, "three quarters of 225 less 10: geometry"),
        (brick.closer, 215, "a brick cut along its length keeps its length"),
        (brick.king_closer, 215, "as above"),
    ],
)
def test_a_piece_is_as_long_as_it_is_cut(named, drawn, long: float, source: str) -> None:
    """Its front face, the first that is drawn, from corner to corner."""
    front = named(drawn())[0]
    assert (front[1][0] - front[0][0]) * SCALE == pytest.approx(long), source
    assert (front[1][1] - front[2][1]) * SCALE == pytest.approx(65)


def test_a_queen_closer_is_half_a_header_wide(named) -> None:
    """46.25 mm: livery-glossary. Depth is drawn half as far to the right."""
    end = named(brick.closer())[1]
    assert (end[1][0] - end[0][0]) * SCALE / 0.5 == pytest.approx(46.25)


@pytest.mark.parametrize(
    ("drawn", "wide", "high"),
    [(brick.stretcher_face, 215, 65), (brick.header_face, 102.5 * 0.5, 65 + 102.5 * 0.4), (brick.bed_face, 215 + 102.5 * 0.5, 102.5 * 0.4)],
)  # fmt: skip
def test_a_face_is_one_face_of_the_brick(named, size, drawn, wide: float, high: float) -> None:
    [face] = named(drawn())
    assert [round(side * SCALE, 3) for side in size(face)] == [wide, high]


def test_the_frog_lies_inside_the_bed_face(named, size) -> None:
    [frog], [face] = named(brick.frog()), named(brick.bed_face())
    assert all(inner < outer for inner, outer in zip(size(frog), size(face), strict=True))


def test_arrises_are_lines_that_are_heavy(heavy) -> None:
    assert len(heavy(brick.arris())) == 2


def test_a_mitred_bat_is_less_than_its_whole(named, size) -> None:
    """As wide as the brick is high and as deep as it is wide, a corner cut off."""
    [piece] = named(brick.mitred_bat())
    assert [side * 4 for side in size(piece)] == pytest.approx([65, 102.5])
    assert len(piece) == 5
