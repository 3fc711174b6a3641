"""Panels, surrounds and the mitre, checked against the worked figures and against shapely's geometry."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from courseware.trade import (
    AUSTRALIAN,
    FORMATS,
    GERMAN_2DF,
    GERMAN_DF,
    GERMAN_NF,
    UK_73,
    UK_METRIC,
    US_MODULAR,
    TradeError,
    basket_weave,
    clear_height,
    mitre_template,
    opening,
    pier,
    surround,
    weave_closes,
)

CLOSING = (UK_METRIC, GERMAN_NF, US_MODULAR)
SURROUNDING = (UK_METRIC, GERMAN_NF, US_MODULAR)


def polygon(outline) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in outline])


@pytest.mark.parametrize(
    ("format", "closes"),
    [
        (UK_METRIC, True),  # 215 = 3 x 65 + 2 x 10: sheet-9, co-ordinating 225 and 75
        (US_MODULAR, True),  # three courses are 8 in: Brick Industry Association, Technical Notes 10B
        (GERMAN_NF, True),  # 3 NF courses make 250: din-4172
        (AUSTRALIAN, False),  # three courses are 258, a brick 240: Bricks & Pavers Technical Manual 1.1
        (GERMAN_DF, False),  # four courses make 250: din-4172
        (GERMAN_2DF, False),  # two courses make 250: din-4172
        (UK_73, False),  # sheet-9, Table 3: three courses are 249
    ],
)
def test_which_formats_weave(format, closes) -> None:
    assert weave_closes(format) is closes


def test_a_panel_of_3_bricks_by_12_courses() -> None:
    """Common practice, no source: 12 bays, 36 bricks."""
    panel = basket_weave(3, 12)
    assert (panel.bays, panel.stretchers + panel.soldiers) == (12, 36)
    assert (panel.width, panel.height) == (665, 890)  # a pier of 3 bricks: sheet-9, Table 1; 12 courses less a bed


@given(st.integers(1, 9), st.integers(1, 8), st.sampled_from(CLOSING), st.sampled_from(["stretcher", "soldier"]))
def test_bricks_and_joints_tile_the_panel_exactly(bricks, thirds, format, starts) -> None:
    """Each brick with the joint to its right and above fills its place, and the places fill the panel."""
    panel = basket_weave(bricks, 3 * thirds, format, starts)
    places = Fraction(0)
    for brick in panel.bricks:
        wide, high = brick.right - brick.left, brick.top - brick.bottom
        if brick.kind == "stretcher":
            assert (wide, high) == (format.length, format.height)
            places += format.module * format.course
        else:
            assert (wide, high) == (format.height, format.length)
            places += format.module / 3 * format.module
    assert places == bricks * format.module * 3 * thirds * format.course
    whole = unary_union([box(*map(float, (b.left, b.bottom, b.right, b.top))) for b in panel.bricks])
    assert whole.area == pytest.approx(
        len(panel.bricks) * float(format.length * format.height), rel=1e-12
    )  # no overlap


@given(st.integers(1, 9), st.integers(1, 8), st.sampled_from(["stretcher", "soldier"]))
def test_neighbouring_bays_differ(bricks, thirds, starts) -> None:
    kinds = {
        (int(b.left // 225), int(b.bottom // 225)): b.kind
        for b in basket_weave(bricks, 3 * thirds, starts=starts).bricks
    }
    assert kinds[0, 0] == starts
    assert all(kinds[x, y] != kinds.get((x + 1, y)) and kinds[x, y] != kinds.get((x, y + 1)) for x, y in kinds)


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        (
            lambda: basket_weave(3, 10),
            "a basket weave of 10 courses does not close: courses go in threes; nearest: 9 and 12 courses",
        ),
        (lambda: basket_weave(3, 2), "courses go in threes; nearest: 3 courses"),
        (lambda: basket_weave(3.5, 12), "3.5 will not do: a basket weave goes in whole bricks"),
        (lambda: basket_weave(3, 12, AUSTRALIAN), "three courses are 258 mm, a brick and its joint 240 mm"),
        (lambda: basket_weave(3, 12, GERMAN_DF), "4 courses would"),
        (lambda: basket_weave(3, 12, starts="header"), "a weave starts with a stretcher or a soldier bay"),
        (
            lambda: surround("3.5", 15),
            "does not close on 3½ bricks: pieces stand three to a brick; the nearest are 3 and 4 bricks",
        ),
        (lambda: surround(1, 15), "leaves no panel"),
        (lambda: surround(4, 3), "the least is 2 bricks by 4 courses"),
        (lambda: surround(4, 15, UK_73), "three courses are 249 mm where a module is 225 mm"),
        (lambda: surround(4, 15, AUSTRALIAN), "does not close in Australian"),
        (lambda: surround(4, 15, corner="round"), "use mitred or butted"),
        (lambda: mitre_template(corner=30), "too sharp for one bat"),
        (lambda: mitre_template(corner=150), "too blunt"),
        (lambda: mitre_template(corner=180), "between 0 and 180"),
        (lambda: mitre_template(GERMAN_2DF), "which leaves no joint"),
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


def test_the_bat_in_uk_bricks() -> None:
    """Worked figures of common practice, no source: legs of 34.57 mm, a cut of 48.89 mm."""
    bat = mitre_template()
    assert (round(float(bat.leg), 2), round(float(bat.side_leg), 2), round(float(bat.cut_length), 2)) == (
        34.57,
        34.57,
        48.89,
    )
    assert bat.angle == 45


CORNERS = st.integers(79, 108)  # degrees that one bat can take in every one of these formats


@given(CORNERS, st.sampled_from(SURROUNDING))
def test_two_bats_leave_a_joint_of_even_width_on_the_line_that_halves_the_corner(corner, format) -> None:
    """The bat and its mirror image across the halving line: shapely measures what lies between them."""
    import math

    bat = mitre_template(format, corner)
    joint = float(format.module / 3 - format.height)
    one = polygon(bat.outline)
    turn = math.radians(corner)
    c, s = math.cos(turn), math.sin(turn)
    other = Polygon([(x * c + y * s, x * s - y * c) for x, y in one.exterior.coords[:-1]])
    assert one.distance(other) == pytest.approx(joint, abs=1e-6)
    cut = LineString([tuple(map(float, bat.outline[-2])), tuple(map(float, bat.outline[-1]))])
    assert cut.length == pytest.approx(float(bat.cut_length), abs=1e-6)
    halving = LineString([(0, 0), (1000 * math.cos(turn / 2), 1000 * math.sin(turn / 2))])
    ends = [halving.distance(LineString([end, end]).centroid) for end in cut.coords]
    assert ends == pytest.approx([joint / 2] * 2, abs=1e-6)


@given(CORNERS, st.sampled_from(SURROUNDING))
def test_the_cut_takes_off_a_right_angled_corner_of_the_half_brick(corner, format) -> None:
    bat = mitre_template(format, corner)
    removed = float(format.height * format.width) - polygon(bat.outline).area
    assert removed == pytest.approx(float(bat.leg * bat.side_leg) / 2, abs=1e-6)


@given(CORNERS)
def test_both_hands_are_mirror_images(corner) -> None:
    bat = mitre_template(corner=corner)
    one, other = polygon(bat.outline), polygon(bat.other_hand)
    assert one.area == pytest.approx(other.area)
    assert one.bounds == other.bounds
    assert other.exterior.is_ccw


@pytest.mark.parametrize("format", [format for format in FORMATS.values() if format not in SURROUNDING])
def test_a_format_that_does_not_close_says_so_by_name(format) -> None:
    with pytest.raises(TradeError, match=format.name):
        surround(4, 15, format)
