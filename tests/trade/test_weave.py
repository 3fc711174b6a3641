"""Basket weave, checked against the worked figures and against shapely's geometry."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from courseware.trade import (
    AUSTRALIAN,
    GERMAN_2DF,
    GERMAN_DF,
    GERMAN_NF,
    UK_73,
    UK_METRIC,
    US_MODULAR,
    TradeError,
    basket_weave,
    weave_closes,
)

CLOSING = (UK_METRIC, GERMAN_NF, US_MODULAR)


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
    ],
)
def test_what_cannot_be_built_is_told_with_what_can(ask, message) -> None:
    with pytest.raises(TradeError) as told:
        ask()
    assert message in str(told.value)
