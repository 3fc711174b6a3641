"""What a bank may ask of each kind of drawing: limits, what may be left out, dimensions as the trade core has them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS, drawn_figures, kind_of, opening_in_wall
from courseware.banks.exercise import DrawingAsked
from courseware.banks.own_picture import OwnPicture
from courseware.trade import GERMAN_NF, UK_METRIC, TradeError

KINDS = pytest.mark.parametrize("kind", DRAWING_KINDS.values(), ids=list(DRAWING_KINDS))


@KINDS
def test_the_limits_of_each_argument_stand_the_right_way_round(kind) -> None:
    for limits in kind.arguments.values():
        assert limits if isinstance(limits, frozenset) else limits[0] < limits[1]


@KINDS
def test_what_is_taken_where_nothing_is_said_lies_within_the_limits(kind) -> None:
    for name, taken in kind.optional.items():
        limits = kind.arguments[name]
        assert taken in limits if isinstance(limits, frozenset) else limits[0] <= taken <= limits[1]


@KINDS
def test_each_has_its_line_for_the_manual(kind) -> None:
    assert kind.says
    assert set(kind.units) <= set(kind.dimensions)
    assert set(kind.told) <= set(kind.arguments)


@KINDS
def test_what_is_told_by_a_word_is_told_by_each_word_there_is(kind) -> None:
    for name, by_word in kind.told.items():
        words = kind.arguments[name]
        assert not isinstance(words, frozenset) or set(by_word) <= words


@pytest.mark.parametrize(
    ("kind", "figures", "sizes"),
    [
        # Sheet 9, Table 1: CO, CO- and CO+ of four bricks; gauge of 75 mm
        ("opening", {"bricks": 4, "courses": 4}, {"width": 910, "height": 310}),
        ("pier", {"bricks": 4, "courses": 4}, {"width": 890, "height": 300}),
        ("returned", {"bricks": 4, "courses": 4}, {"width": 900, "height": 300}),
        ("gauge_rod", {"courses": 4}, {"height": 300, "face_height": 290, "clear_height": 310, "gauge": 75}),
        # derived by hand
        ("projection", {"course": 20, "eye_height": 1600, "projects": 25}, {"from_eye": 100, "course_height": 1500}),
        ("projection", {"course": 24, "eye_height": 1600, "projects": 25}, {"from_eye": 200}),
        ("surround", {"bricks": 4, "courses": 15}, {"width": 910, "panel_width": 665}),
        ("soldiers", {"length": 890}, {"length": 890, "each": 65, "height": 215}),
        ("sill", {"length": 890, "stands": 35}, {"length": 890, "stands": 35}),
        ("dentils", {"length": "1002.5"}, {"length": Fraction("1002.5"), "each": Fraction("102.5")}),
        ("stack_bond", {"bricks": 4, "courses": 4}, {"width": 890, "height": 290}),
        ("corbel", {"steps": 4, "each": 40, "thickness": 1}, {"total": 160, "thickness": 215}),
        ("square_corner", {"along": 1200, "up": 900}, {"tape": 1500}),  # 3-4-5
        ("diagonals", {"width": 1200, "height": 900}, {"diagonal": 1500}),
    ],
)
def test_a_dimension_is_what_the_trade_has(kind: str, figures, sizes) -> None:
    dimensions = DRAWING_KINDS[kind].dimensions
    assert {name: dimensions[name](figures, UK_METRIC) for name in sizes} == sizes


def test_dimensions_go_by_the_brick() -> None:
    """DIN 4172: a German opening of four bricks is 1010 mm."""
    assert DRAWING_KINDS["opening"].dimensions["width"]({"bricks": 4}, GERMAN_NF) == 1010


@pytest.mark.parametrize(
    ("wide", "high", "fits"), [(2000, 1000, True), (2000, 999, True), (2001, 1000, False), (2000, 1001, False)]
)
def test_an_opening_is_no_larger_than_its_wall(wide: int, high: int, fits: bool) -> None:
    figures = {"length": 2000, "height": 1000, "opening_width": wide, "opening_height": high}
    if fits:
        opening_in_wall(figures, UK_METRIC)
        return
    with pytest.raises(TradeError, match="the opening is larger than the wall"):
        opening_in_wall(figures, UK_METRIC)


@pytest.mark.parametrize(
    ("kind", "figures"),
    [
        ("herringbone", {"bricks": 4, "courses": 12, "angle": "45.5"}),
        ("herringbone", {"bricks": 4, "courses": 12, "angle": 60}),
        ("surround", {"bricks": "3.5", "courses": 15, "corner": "mitred"}),
        ("stack_bond", {"bricks": "3.5", "courses": 4}),
    ],
)
def test_what_its_limits_let_through_and_cannot_be_built_is_refused(kind: str, figures) -> None:
    with pytest.raises(TradeError):
        DRAWING_KINDS[kind].builds(figures, UK_METRIC)


def test_figures_are_the_banks_own_and_what_is_taken_for_the_rest(formula) -> None:
    asked = DrawingAsked(kind="pier", figures={"bricks": formula("bricks + 1", bricks="number")}, shows=(), asks={})
    assert drawn_figures(asked, {"bricks": 4}) == {"bricks": 5, "courses": 6}
    of_six = DrawingAsked(kind="pier", figures={**asked.figures, "courses": formula("9")}, shows=(), asks={})
    assert drawn_figures(of_six, {"bricks": 4}) == {"bricks": 5, "courses": 9}


def test_an_authors_own_takes_no_figures_and_says_its_own_words() -> None:
    own = OwnPicture(file="gate.svg", says="a gate in its wall", marks=())
    asked = DrawingAsked(kind="own", figures={}, shows=(), asks={}, own=own)
    assert (kind_of(asked).says, kind_of(asked).arguments, kind_of(asked).dimensions) == ("a gate in its wall", {}, {})
    assert drawn_figures(asked, {"bricks": 4}) == {}
    assert kind_of(DrawingAsked(kind="pier", figures={}, shows=(), asks={})) is DRAWING_KINDS["pier"]
