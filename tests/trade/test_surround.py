"""Surrounds, checked against the worked figures and against shapely's geometry."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from courseware.trade import (
    AUSTRALIAN,
    FORMATS,
    GERMAN_NF,
    UK_73,
    UK_METRIC,
    US_MODULAR,
    TradeError,
    clear_height,
    opening,
    pier,
    surround,
)

SURROUNDING = (UK_METRIC, GERMAN_NF, US_MODULAR)


def polygon(outline) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in outline])


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        (
            lambda: surround("3.5", 15),
            "does not close on 3½ bricks: pieces stand three to a brick; the nearest are 3 and 4 bricks",
        ),
        (lambda: surround(1, 15), "leaves no panel"),
        (lambda: surround(4, 3), "the least is 2 bricks by 4 courses"),
        (lambda: surround(4, 15, UK_73), "three courses are 249 mm where a module is 225 mm"),
        (lambda: surround(4, 15, AUSTRALIAN), "does not close in Australian"),
        (lambda: surround(4, 15, corner="round"), "use mitred or butted"),
    ],
)
def test_what_cannot_be_built_is_told_with_what_can(ask, message) -> None:
    with pytest.raises(TradeError) as told:
        ask()
    assert message in str(told.value)


def test_a_butted_surround_of_4_bricks_by_15_courses() -> None:
    """Common practice, no source: 12 pieces to each run, 48 half bricks, a panel of 3 bricks by 12 courses."""
    found = surround(4, 15, corner="butted")
    runs = [sum(1 for piece in found.pieces if piece.run == run) for run in ("bottom", "top", "left", "right")]
    assert runs == [12, 12, 12, 12]
    assert (found.halves, found.bats, found.corners, found.bricks) == (48, 0, 0, 24)
    assert (found.panel_bricks, found.panel_courses) == (3, 12)


def test_a_mitred_surround_of_4_bricks_by_15_courses() -> None:
    """Common practice, no source: 4 corner pieces, 8 mitred bats, 38 half bricks; the opening is 910 wide (sheet-9)."""
    found = surround(4, 15)
    assert (found.corners, found.bats, found.halves, len(found.pieces)) == (4, 8, 38, 50)
    assert (found.width, found.bricks, found.cuts) == (910, 25, 37)


@given(st.integers(2, 9), st.integers(4, 30), st.sampled_from(SURROUNDING), st.sampled_from(["mitred", "butted"]))
def test_no_piece_touches_another_the_reveals_or_the_panel(bricks, courses, format, corner) -> None:
    found = surround(bricks, courses, format, corner)
    shapes = [polygon(piece.outline) for piece in found.pieces]
    assert all(shape.is_valid and shape.exterior.is_ccw for shape in shapes)
    least = float(min(format.perpend, format.bed)) * 0.8  # German beds are 2 1/3 mm thicker than perpends
    for index, shape in enumerate(shapes):
        near = [other for other in shapes[index + 1 :] if shape.distance(other) < least - 1e-9]
        assert not near
    frame = box(0, 0, float(found.width), float(found.height))
    everything = unary_union(shapes)
    assert frame.contains(everything)
    assert frame.exterior.distance(everything) >= least - 1e-9
    wide, high = float(pier(found.panel_bricks, format)), float(format.course * found.panel_courses - format.bed)
    left, low = (float(found.width) - wide) / 2, (float(found.height) - high) / 2
    assert box(left, low, left + wide, low + high).distance(everything) >= least - 1e-9


@given(st.integers(2, 9), st.integers(4, 30), st.sampled_from(["mitred", "butted"]))
def test_in_uk_bricks_every_joint_of_the_surround_is_10_mm(bricks, courses, corner) -> None:
    found = surround(bricks, courses, corner=corner)
    assert (found.width, found.height) == (opening(bricks), clear_height(courses))
    everything = unary_union([polygon(piece.outline) for piece in found.pieces])
    assert everything.bounds == (10, 10, float(found.width) - 10, float(found.height) - 10)
    for piece in found.pieces:
        shape = polygon(piece.outline)
        assert shape.distance(everything.difference(shape)) == pytest.approx(10, abs=1e-6)


@pytest.mark.parametrize("format", [format for format in FORMATS.values() if format not in SURROUNDING])
def test_a_format_that_does_not_close_says_so_by_name(format) -> None:
    with pytest.raises(TradeError, match=format.name):
        surround(4, 15, format)
