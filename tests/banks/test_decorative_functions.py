"""Formula functions of panels and decorative courses: for any brick, bounded where pieces are laid one by one.

What each gives stands in the table of `test_vocabulary`.
"""

from __future__ import annotations

import pytest

from courseware import trade
from courseware.banks.decorative_functions import decorative
from courseware.trade import GERMAN_NF, UK_METRIC, TradeError

ABSURD = [
    ("weave_bays(3, 10 ** 9 * 3)", "a panel takes at most 40 bricks by 120 courses here"),
    ("surround_cuts(10 ** 12, 15)", "a panel takes at most 40 bricks by 120 courses here"),
    ("herringbone_cut(10 ** 9, 910, 45)", "herringbone takes an opening of at most 3000 mm either way here"),
    ("herringbone_cut(910, 910, 45.5)", "herringbone is laid at 45 or 90 degrees"),
]


@pytest.mark.parametrize(("text", "why"), ABSURD)
def test_what_is_laid_piece_by_piece_is_bounded(formula, text: str, why: str) -> None:
    with pytest.raises(TradeError) as impossible:
        formula(text).value({})
    assert str(impossible.value) == why


@pytest.mark.parametrize(
    ("text", "fits"),
    [
        ("weave_bays(40, 120)", True), ("weave_bays(41, 120)", False), ("weave_bays(40, 123)", False),
        ("surround_cuts(40, 120)", True), ("surround_cuts(41, 120)", False),
        ("herringbone_cut(3000, 910, 90)", True), ("herringbone_cut(910, 3001, 90)", False),
    ],
)  # fmt: skip
def test_the_largest_that_is_laid(formula, text: str, fits: bool) -> None:
    if fits:
        assert formula(text).value({}) >= 0
        return
    with pytest.raises(TradeError, match="at most"):
        formula(text).value({})


@pytest.mark.parametrize("brick", [UK_METRIC, GERMAN_NF], ids=lambda brick: brick.name)
def test_they_go_by_the_brick_they_are_made_for(brick) -> None:
    own = decorative(brick, "outline")
    assert own["soldiers_in"].call(trade.pier(4, brick)) == trade.soldiers(trade.pier(4, brick), brick).pieces
    assert own["tooth_pitch"].call() == trade.dog_tooth(10_000, brick).pitch
    assert own["mitre_leg"].call(90) == trade.mitre_template(brick, 90).leg


def test_the_arris_of_a_run_goes_by_the_centres_rule_and_its_height_by_none() -> None:
    outline, near = (decorative(UK_METRIC, rule) for rule in ("outline", "near"))
    assert {own["top_run_arris"].call(15, 6, 1000) for own in (outline, near)} == {"top", "underside"}
    assert outline["top_run_height"].call(15, 6) == near["top_run_height"].call(15, 6) == 1575


@pytest.mark.parametrize(("courses", "closes"), [(3, True), (12, True), (0, False), (-3, False), (4, False)])
def test_a_weave_closes_on_threes_of_courses(courses: int, closes: bool) -> None:
    assert decorative(UK_METRIC, "outline")["closes_weave"].call(courses) is closes


def test_every_function_has_its_line_for_the_manual() -> None:
    assert all(function.says for function in decorative(UK_METRIC, "outline").values())
