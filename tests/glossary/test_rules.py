"""The card's rules: each worked figure is the trade core's and, where there is a table, that of the source."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from courseware import trade
from courseware.drawings.picture import Label
from courseware.glossary.rules import Rule, rules
from courseware.trade import UK_METRIC


@pytest.fixture(scope="module")
def card() -> tuple[Rule, ...]:
    return rules("outline")


def starting(card: tuple[Rule, ...], words: str) -> Rule:
    return next(rule for rule in card if rule.says.startswith(words))


@pytest.mark.parametrize(
    ("words", "ends", "figure", "source"),
    [
        ("Opening =", "685 mm", trade.opening(3), "sheet-9, Table 1, row 3, column CO+"),
        ("Pier =", "665 mm", trade.pier(3), "sheet-9, Table 1, row 3, column CO-"),
        ("To a return =", "675 mm", trade.returned(3), "sheet-9, Table 1, row 3, column CO"),
        ("Height =", "300 mm; clear 310 mm.", trade.height(4), "livery-glossary: four courses to 300 mm"),
        ("Soldiers", "20 pieces", trade.soldiers(1490).pieces, "geometry: 20 pieces of 65 and 19 joints of 10"),
        ("A corner is square", "1500 mm across", trade.diagonal(1200, 900), "3-4-5, times 300"),
        ("Half-brick wall", "126 bricks", trade.order(trade.bricks_for_area(2, rate="site"), waste_percent=5), "2 × 60 × 1.05 = 126, never 127"),
        ("Three courses", "panel 3 × 12.", trade.surround(4, 15).panel_courses, "geometry: a module of frame and three courses"),
    ],
)  # fmt: skip
def test_a_figure_is_the_trade_core_s_and_the_source_s(card, words: str, ends: str, figure, source: str) -> None:
    example = starting(card, words).example
    assert example.endswith(ends), source
    assert str(figure) in example


def test_a_sum_that_is_written_out_is_right(card) -> None:
    """Every `a × b + c = d` on the card, worked again from its own words."""
    sums = [found for rule in card for found in re.findall(r"([\d× +÷−.]+) = (\d+)", rule.example)]
    assert len(sums) >= 5
    for left, right in sums:
        written = left.strip().replace("×", "*").replace("÷", "/").replace("−", "-")
        assert Fraction(eval(re.sub(r"\d+", r"Fraction(\g<0>)", written), {"Fraction": Fraction})) == int(right)


def test_the_mitre_is_cut_as_the_template_says(card) -> None:
    """34.57 and 48.89 mm by geometry, for UK metric bricks."""
    assert starting(card, "Draw the corner").example == "Leg of the cut 34.6 mm, its length 48.9 mm."
    bat = trade.mitre_template(UK_METRIC)
    assert float(bat.leg) == pytest.approx(34.57, abs=0.005)
    assert float(bat.cut_length) == pytest.approx(48.89, abs=0.005)


def test_the_arris_is_that_of_the_centre_s_own_rule(card) -> None:
    rule = starting(card, "Above the eye line level the top arris, below it the under-side arris")
    assert trade.arris_to_level(trade.height(20), 1650, "outline") == "underside"
    assert rule.example == "Course 20 is 1500 mm up, the eye 1650 mm: level the under-side arris."
    assert "Centres differ" in rule.says
    other = starting(rules("near"), "Above the eye line level the under-side arris, below it the top arris")
    assert other.example.endswith("level the top arris.")


def test_a_drawing_says_the_figures_of_its_rule(card) -> None:
    for rule in card:
        for label in (mark for mark in rule.picture.marks if isinstance(mark, Label) and mark.text.isdigit()):
            shown = rule.example.replace("2 m²", "2000 × 1000")  # a wall of 2 m²
            assert label.text in shown, rule


def test_every_rule_names_its_source(card) -> None:
    known = {"Technical Information Sheet 9", "Tylers and Bricklayers", "geometry", "common practice", "HSE, order of control for dust"}  # fmt: skip
    assert {rule.source for rule in card} == known
