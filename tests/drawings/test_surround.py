"""A panel in its surround read back: every piece in its place in the opening, a joint from all that it touches."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from shapely.affinity import scale
from shapely.geometry import box
from shapely.strtree import STRtree

from courseware.drawings import draw
from courseware.drawings.picture import Stroke
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC, basket_weave, surround
from tests.drawings.conftest import HALF_BRICK, PROJECTING, on_wall, spread

# Bricks by courses, the opening's width (sheet-9, Table 1, CO+) and its clear height, 75 a course and a bed.
OPENINGS = [(3, 9, 685, 685), (4, 15, 910, 1135), (5, 12, 1135, 910)]
CORNERS = ["mitred", "butted"]
KINDS = {HALF_BRICK: "half brick", PROJECTING: "mitred bat", 1.0: "corner piece"}
CLOSE = 0.06  # mm of wall that three places of a mm of paper leave open at these scales


def read_back(drawn, bricks: int, courses: int, wide: int, corner: str):
    return on_wall(drawn("surround", {}, bricks=bricks, courses=courses, corner=corner), wide)


def frame_of(wall, depth: float = 112.6):
    """The pieces of the surround, each with its kind: what does not reach within the panel."""
    left, low, right, top = wall.frame.bounds
    panel = box(left + depth, low + depth, right - depth, top - depth)
    return [
        (KINDS[grey], piece)
        for grey, found in wall.pieces.items()
        for piece in found
        if grey in KINDS and piece.intersection(panel).area < 1
    ]


def neighbours(pieces) -> dict[int, set[int]]:
    """Which piece has which a joint from it: by their places in the list."""
    tree = STRtree(pieces)
    found = {}
    for n, piece in enumerate(pieces):
        near = tree.query(piece.buffer(10 + 2 * CLOSE))
        found[n] = {int(m) for m in near if m != n and piece.distance(pieces[m]) < 10 + 2 * CLOSE}
    return found


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_pieces_and_panel_fill_the_opening_a_joint_apart_and_none_lies_on_another(
    drawn, bricks, courses, wide, high, corner
):
    """With half a joint all round each they cover it once, but for half a joint along the reveals."""
    wall = read_back(drawn, bricks, courses, wide, corner)
    assert wall.frame.bounds == pytest.approx((0, 0, wide, high), abs=0.1)
    together, twice = spread(wall.all_pieces, 10)
    assert together.bounds == pytest.approx((5, 5, wide - 5, high - 5), abs=0.1)
    assert together.area == pytest.approx((wide - 10) * (high - 10), rel=2e-4)
    assert twice == pytest.approx(0, abs=2e-4 * together.area)


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_it_has_the_pieces_that_the_list_of_resources_has(drawn, bricks, courses, wide, high, corner):
    """Counted by their greys. Derived: mitred, three pieces to a brick and one to a course on either side, less corners."""
    wall = read_back(drawn, bricks, courses, wide, corner)
    kinds = Counter(kind for kind, _ in frame_of(wall))
    found = surround(bricks, courses, corner=corner)
    expected = {"half brick": found.halves, "mitred bat": found.bats, "corner piece": found.corners}
    assert kinds == Counter({kind: count for kind, count in expected.items() if count})
    corners, bats = (4, 8) if corner == "mitred" else (0, 0)
    assert (found.corners, found.bats) == (corners, bats)
    assert found.halves == (
        2 * (3 * bricks - 4) + 2 * (courses - 4) if corner == "mitred" else 6 * bricks + 2 * (courses - 3)
    )
    weave = basket_weave(bricks - 1, courses - 3)
    assert len(wall.all_pieces) == sum(kinds.values()) + weave.stretchers + weave.soldiers


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_each_kind_of_piece_has_its_size(drawn, bricks, courses, wide, high, corner):
    """A half brick 102.5 by 65, a corner piece 65 square, a bat a half brick less its corner: a cut of 48.89, derived."""
    for kind, piece in frame_of(read_back(drawn, bricks, courses, wide, corner)):
        left, low, right, top = piece.bounds
        sides = [65, 65] if kind == "corner piece" else [65, 102.5]
        assert sorted((right - left, top - low)) == pytest.approx(sides, abs=2 * CLOSE)
        area = 65 * 102.5 - 34.57**2 / 2 if kind == "mitred bat" else sides[0] * sides[1]
        assert piece.area == pytest.approx(area, abs=10)


@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_at_a_mitred_corner_the_piece_touches_a_bat_of_either_hand_and_these_each_other(
    drawn, bricks, courses, wide, high
):
    placed = frame_of(read_back(drawn, bricks, courses, wide, "mitred"))
    kinds, pieces = [kind for kind, _ in placed], [piece for _, piece in placed]
    touched = neighbours(pieces)
    for n, kind in enumerate(kinds):
        beside = Counter(kinds[m] for m in touched[n])
        if kind == "corner piece":
            assert beside == {"mitred bat": 2}
            one, other = touched[n]
            assert other in touched[one]
            x, y = pieces[n].centroid.coords[0]
            ways = {(abs(pieces[m].centroid.x - x) > abs(pieces[m].centroid.y - y)) for m in touched[n]}
            assert ways == {True, False}  # one along from it, one over or under it
        elif kind == "mitred bat":
            assert beside == {"corner piece": 1, "mitred bat": 1, "half brick": 1}
        else:
            assert len(touched[n]) == 2  # the piece before it in its run, and the one after
    assert [x for kind, p in placed if kind == "corner piece" for x in p.bounds[:2]].count(
        pytest.approx(10, abs=0.1)
    ) == 4


@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_at_a_butted_corner_the_upright_stands_on_the_two_last_pieces_of_the_run(drawn, bricks, courses, wide, high):
    """The horizontal runs pass through: their last pieces stand a joint from the reveal, uprights between the runs."""
    pieces = [piece for _, piece in frame_of(read_back(drawn, bricks, courses, wide, "butted"))]
    touched = neighbours(pieces)
    level = [n for n, p in enumerate(pieces) if p.bounds[3] - p.bounds[1] > p.bounds[2] - p.bounds[0]]
    assert len(level) == 2 * 3 * bricks
    assert {round(pieces[n].bounds[0]) for n in level} >= {10, wide - 10 - 65}
    first = [n for n in range(len(pieces)) if n not in level and touched[n] & set(level)]
    assert len(first) == 4
    for n in first:
        assert len(touched[n] & set(level)) == 2
        assert len(touched[n] - set(level)) == 1


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_both_sides_and_both_runs_are_alike(drawn, bricks, courses, wide, high, corner):
    """Mirrored at either middle line, the surround is itself."""
    placed = frame_of(read_back(drawn, bricks, courses, wide, corner))
    for across, up in ((-1, 1), (1, -1)):
        for kind, piece in placed:
            mirrored = scale(piece, across, up, origin=(wide / 2, high / 2))
            assert any(other == kind and mirrored.symmetric_difference(each).area < 30 for other, each in placed)


@pytest.mark.parametrize(("bricks", "courses", "wide", "high"), OPENINGS)
def test_the_panel_stands_a_joint_from_the_surround_all_round(drawn, bricks, courses, wide, high):
    wall = read_back(drawn, bricks, courses, wide, "mitred")
    ring = {piece.wkt for _, piece in frame_of(wall)}
    panel = [piece for piece in wall.all_pieces if piece.wkt not in ring]
    bounds = [edge(p.bounds[n] for p in panel) for n, edge in ((0, min), (1, min), (2, max), (3, max))]
    assert bounds == pytest.approx([122.5, 122.5, wide - 122.5, high - 122.5], abs=2 * CLOSE)
    assert (bounds[2] - bounds[0], bounds[3] - bounds[1]) == pytest.approx(
        (225 * (bricks - 1) - 10, 75 * (courses - 3) - 10),
        abs=2 * CLOSE,  # sheet-9, CO-, of one brick less
    )


@pytest.mark.parametrize(("courses", "woven"), [(9, True), (10, False), (11, False), (12, True)])
def test_a_panel_whose_courses_do_not_come_in_threes_is_left_open(drawn, courses, woven):
    wall = on_wall(drawn("surround", {}, bricks=3, courses=courses), 685)
    assert (len(wall.all_pieces) > len(frame_of(wall))) is woven


def test_a_size_asked_for_is_blank_and_one_told_is_written() -> None:
    figures = {"bricks": Fraction(4), "courses": Fraction(15), "corner": "mitred", "starts": "stretcher"}
    labels = {"width": "910", "height": "1135", "panel_width": None}
    picture = draw(DrawingCall(kind="surround", figures=figures, labels=labels, format=UK_METRIC, alt="x"))
    texts = {getattr(mark, "text", None) for mark in picture.marks}
    assert {"910", "1135"} <= texts
    assert "665" not in texts
    blanks = [m for m in picture.marks if isinstance(m, Stroke) and m.fill == 1.0 and len(m.outlines) == 1]
    assert blanks
