"""A wall put on paper, the frame that just holds it, levels with their triangles, and what is cut through."""

from __future__ import annotations

import pytest
from shapely.geometry import LineString, Polygon

from courseware.drawings.bond import PlacedBrick
from courseware.drawings.frame import View, cut_through, datum, framed, level
from courseware.drawings.lines import CUT, FINE, GROUND, SEEN
from courseware.drawings.picture import Label, Stroke, extent

BRICK = PlacedBrick(left=0, bottom=10, right=215, top=75)


def test_a_place_on_the_wall_is_on_paper_to_scale_and_upwards_is_up() -> None:
    view = View(one_to=20, origin=(5.0, 100.0))
    assert view.at(200, 400) == (15.0, 80.0)
    assert view.box(0, 0, 200, 400) == ((5.0, 80.0), (15.0, 80.0), (15.0, 100.0), (5.0, 100.0))


@pytest.mark.parametrize(("one_to", "pen"), [(33, SEEN), (34, FINE)])
def test_bricks_whose_joints_would_close_have_the_finest_pen(one_to, pen) -> None:
    """A joint of 10 mm at 1:33 is just 0.3 mm of paper, at 1:34 under it."""
    [stroke] = View(one_to=one_to).bricks((BRICK,))
    assert stroke.weight == pen.weight


def test_a_brick_cut_through_is_heavy_and_hatched_within() -> None:
    """iso-128: what is cut is heavier than what is seen."""
    outline, hatch = View(one_to=5).cut((BRICK,))
    assert outline.weight == CUT.weight > SEEN.weight
    assert all(Polygon(outline.outlines[0]).buffer(1e-6).covers(LineString(run)) for run in hatch.outlines)
    assert cut_through(()) == ()
    assert cut_through(outline.outlines, None)[0].fill is None


def test_a_datum_is_a_heavy_line_with_a_triangle_that_stands_on_it_and_its_name_below() -> None:
    line, triangle, *names = datum((50.0, 80.0), (90.0, 80.0), "datum: top", "of brick below")
    assert line.weight == GROUND.weight
    (left, y), (right, _) = line.outlines[0]
    assert (y, left < 50, right > 90) == (80.0, True, True)
    [corners] = triangle.outlines
    assert max(corners, key=lambda corner: corner[1]) == (pytest.approx(corners[0][0]), 80.0)
    assert [name.text for name in names] == ["datum: top", "of brick below"]
    assert all(min(y for _, y in extent(name)) > 80 for name in names)
    assert all(max(x for x, _ in extent(name)) < 50 for name in names)
    assert len(datum((50.0, 80.0), (90.0, 80.0))) == 1


def test_a_levels_triangle_points_down_at_it() -> None:
    [(tip, *top)] = level((10.0, 20.0)).outlines
    assert tip == (10.0, 20.0)
    assert all(y < 20 for _, y in top)
    assert (top[0][0] + top[1][0]) / 2 == pytest.approx(10)


def test_the_picture_just_holds_its_marks() -> None:
    marks = (Stroke(outlines=(((-5.0, -3.0), (20.0, 30.0)),)), Label(at=(20.0, 30.0), text="x", anchor="start"))
    picture = framed(marks, "words")
    corners = [corner for mark in picture.marks for corner in extent(mark)]
    assert (min(x for x, _ in corners), min(y for _, y in corners)) == pytest.approx((1.0, 1.0))
    right, bottom = max(x for x, _ in corners), max(y for _, y in corners)
    assert (picture.width, picture.height) == pytest.approx((right + 1, bottom + 1), abs=0.001)
    assert (picture.alt, picture.one_to, picture.body) == ("words", None, None)
