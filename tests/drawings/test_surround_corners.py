"""The corners of a surround read back: pieces at the corners alone, each where it stands in the whole surround."""

from __future__ import annotations

import pytest

from courseware.drawings.frame import HALF_BRICK, PROJECTING
from courseware.trade import surround
from tests.drawings.conftest import SVG, boxes, on_wall

# Bricks by courses, and the opening in mm: sheet-9, Table 1, CO+; 75 a course and a bed
OPENINGS = [(2, 7, 460, 535), (3, 9, 685, 685), (5, 11, 1135, 835), (8, 20, 1810, 1510), (12, 36, 2710, 2710)]


@pytest.mark.parametrize("corner", ["mitred", "butted"])
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_each_piece_drawn_is_one_of_the_surround_and_stands_at_a_corner(drawn, bricks, courses, wide, high, corner):
    wall = on_wall(drawn("surround_corners", {}, bricks=bricks, courses=courses, corner=corner), wide)
    whole = surround(bricks, courses, corner=corner)
    left, low, right, top = wall.frame.bounds
    assert (right - left, top - low) == pytest.approx((wide, high), abs=0.2)
    drawn_pieces = [piece for grey in (HALF_BRICK, PROJECTING) for piece in wall.pieces.get(grey, ())]
    places = {(round(x), round(y)) for x, y in (middle(piece.outline) for piece in whole.pieces)}
    for piece in drawn_pieces:
        x, y = (piece.bounds[0] + piece.bounds[2]) / 2, (piece.bounds[1] + piece.bounds[3]) / 2
        assert any(abs(x - a) <= 1 and abs(y - b) <= 1 for a, b in places)
        assert min(x, wide - x) < 3 * 75 + 60
        assert min(y, high - y) < 3 * 75 + 60
    assert len(drawn_pieces) < len(whole.pieces)


def middle(outline) -> tuple[float, float]:
    xs, ys = zip(*outline, strict=True)
    return float(min(xs) + max(xs)) / 2, float(min(ys) + max(ys)) / 2


@pytest.mark.parametrize(("corner", "light", "dark"), [("mitred", 8, 8), ("butted", 20, 0)])
def test_as_many_are_drawn_of_a_large_one_whatever_its_size(drawn, corner, light, dark) -> None:
    """Three of a run at each end, the corner counted in both: nothing to count the whole by."""
    for bricks, courses in ((5, 12), (8, 20), (12, 36)):
        sheet = drawn("surround_corners", {}, bricks=bricks, courses=courses, corner=corner)
        wall = on_wall(sheet, bricks * 225 + 10)
        assert (len(wall.pieces.get(HALF_BRICK, ())), len(wall.pieces.get(PROJECTING, ()))) == (light, dark)


def test_its_counts_stand_above_and_to_the_left(drawn) -> None:
    sheet = drawn("surround_corners", {"bricks": "5 bricks", "courses": "11 courses"}, bricks=5, courses=11)
    assert set(sheet.texts) == {"panel", "5 bricks", "11 courses"}
    frame = boxes(sheet, "none")[0]
    where = {text.text: (float(text.attrib["x"]), float(text.attrib["y"])) for text in sheet.root.iter(f"{SVG}text")}
    assert where["5 bricks"][1] < frame.top
    assert where["11 courses"][0] < frame.left
