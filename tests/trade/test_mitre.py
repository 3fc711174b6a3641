"""The mitred bat, checked against the worked figures and against shapely's geometry."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from courseware.trade import (
    GERMAN_2DF,
    GERMAN_NF,
    UK_METRIC,
    US_MODULAR,
    TradeError,
    mitre_template,
)

SURROUNDING = (UK_METRIC, GERMAN_NF, US_MODULAR)


def polygon(outline) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in outline])


@pytest.mark.parametrize(
    ("ask", "message"),
    [
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
