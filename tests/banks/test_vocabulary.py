"""The names every formula may use: each is wired to its trade function, and none can break a proof."""

from __future__ import annotations

import contextlib
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.banks.formulas import FormulaImpossible
from courseware.banks.vocabulary import vocabulary
from courseware.trade import FORMATS, GERMAN_NF, TradeError

SHEET_9 = "Sheet 9, Table 1"
GEOMETRY = "Geometry"
OWN = "This project's own arithmetic"


@pytest.mark.parametrize(
    ("text", "value", "source"),
    [
        ("opening(4)", "910", SHEET_9),
        ("returned(4)", "900", SHEET_9),
        ("pier(4)", "890", SHEET_9),
        ("pier(3.5)", "777.5", SHEET_9),
        ("bricks_in_opening(910)", "4", SHEET_9),
        ("bricks_in_returned(900)", "4", SHEET_9),
        ("bricks_in_pier(890)", "4", SHEET_9),
        ("opening_below(1000)", "910", SHEET_9),
        ("opening_above(1000)", "1022.5", SHEET_9),
        ("pier_below(1000)", "890", SHEET_9),
        ("pier_above(1000)", "1002.5", SHEET_9),
        ("returned_below(1000)", "900", SHEET_9),
        ("returned_above(1000)", "1012.5", SHEET_9),
        ("is_opening(910)", True, SHEET_9),
        ("is_opening(1000)", False, SHEET_9),
        ("height(4)", "300", "gauge of 75 mm"),
        ("face_height(4)", "290", "gauge of 75 mm"),
        ("clear_height(4)", "310", "gauge of 75 mm"),
        ("courses_in(300)", "4", "gauge of 75 mm"),
        ("courses_in_face(290)", "4", "gauge of 75 mm"),
        ("courses_in_clear(310)", "4", "gauge of 75 mm"),
        ("courses_to_reach(1350)", "18", "gauge of 75 mm"),
        ("courses_to_reach(1351)", "19", "gauge of 75 mm"),
        ("regauge_courses(1210)", "16", OWN),
        ("regauge_gauge(1200, 15)", "80", OWN),
        ("regauge_bed(1200, courses=15)", "15", OWN),
        ("queen_closer()", "46.25", "livery-glossary"),
        ("from_eye(20, 1600)", "-100", OWN),
        ("arris(1725, 1600)", "top", "the outline rule, above the eye"),
        ("arris(1500, 1600)", "underside", "the outline rule, below the eye"),
        ("projection_per_course('uk_corbel')", "56", "a UK glossary"),
        ("projection_total('uk_corbel')", "102.5", "a UK glossary: the wall's thickness, half a brick"),
        ("diagonal(3000, 4000)", "5000", GEOMETRY),
        ("segmental_radius(1200, 200)", "1000", GEOMETRY),
        ("angle_of_sight(100, 100)", "45", GEOMETRY),
        ("inches(254)", "10", "25.4 mm to the inch"),
        ("in_inches(193.675)", "7⅝ in", "25.4 mm to the inch"),
        ("up(2.01) + up(0 - 2.5)", "1", OWN),
        ("down(2.99) + down(0 - 2.5)", "-1", OWN),
        ("nearest(2.5, 1) + nearest(112, 25)", "103", "half up"),
        ("least(3, 1.5, 2) + most(3, 1.5, 2)", "4.5", OWN),
        ("wall_area(4000, 2500)", "10", GEOMETRY),
        ("wall_area(4000, 2500, 1000, 2000)", "8", GEOMETRY),
        ("bricks_for_area(10, rate='site')", "600", "brick-quantities"),
        ("bricks_for_area(10, rate='site', thickness=1)", "1200", "brick-quantities"),
        ("packs(600, 5, 500)", "2", "630 bricks are 2 packs of 500"),
        ("cement_m3(0.6, '1:5') + sand_m3(0.6, '1:5')", "0.6", "one part to five"),
        ("sand_m3(0.6, '1:5', dry=1.3)", "0.65", "0.78 m³ dry, five parts of six"),
        ("sand_kg(0.6, '1:5') > cement_kg(0.6, '1:5')", True, "five parts to one"),
        ("cement_bags(0.6, '1:5', bag=50) < cement_bags(0.6, '1:5')", True, "a larger bag, fewer of them"),
        ("mortar(10, waste=10) / mortar(10)", "1.1", "a tenth more"),
        ("mortar(10, thickness=1) > mortar(10)", True, "a thicker wall"),
        ("mortar(10, frog=5) > mortar(10)", True, "frogs take mortar"),
        ("weave_bays(3, 12) + weave_stretchers(3, 12) + weave_soldiers(3, 12)", "48", "12 bays of 3 bricks, turn about"),
        ("closes_weave(12) and not closes_weave(13)", True, "bays are three courses high"),
        ("surround_panel_bricks(4, 15)", "3", "half a brick goes at each side"),
        ("surround_panel_courses(4, 15)", "12", GEOMETRY),
        ("surround_halves(4, 15) + surround_bats(4, 15) + surround_corners(4, 15)", "50", "38 halves, 8 bats, 4 corner pieces"),
        ("surround_bats(4, 15, corner='butted')", "0", "butted corners have no mitre"),
        ("surround_bricks(4, 15)", "25", "50 pieces, two to a brick"),
        ("surround_cuts(4, 15)", "37", "25 halvings, 8 mitres, 4 corner pieces trimmed"),
        ("mitre_angle() + mitre_angle(100)", "95", "half the corner's angle"),
        ("nearest(mitre_leg(), 0.01)", "34.57", GEOMETRY),
        ("nearest(mitre_cut_length() / mitre_leg(), 0.0001)", "1.4142", "at 45 degrees: the root of 2"),
        ("herringbone_whole(910, 910, 90)", "40", "12 by 12 places of 75 mm: 40 × 3 + 8 + 8 × 2"),
        ("herringbone_cut(910, 910, 90)", "16", "8 bats of 65 and 8 of 140 mm"),
        ("herringbone_bricks(910, 910, 90)", "56", "one brick to a piece"),
        ("herringbone_waste_percent(910, 910, 90) > 0", True, "what is cut away"),
        ("bottom_run_height(15, 6) < top_run_height(15, 6)", True, GEOMETRY),
        ("bottom_run_arris(15, 6, 1000)", "underside", "the outline rule, below the eye"),
        ("top_run_arris(15, 6, 1000)", "top", "the outline rule, above the eye"),
        ("stack_bricks(4, 15)", "60", GEOMETRY),
        ("soldiers_in(890) + on_edge_in(890)", "24", "12 at 65 mm and 11 joints are 890 mm"),
        ("soldier_joint(890)", "10", "890 less 12 at 65, over 11 joints"),
        ("dentils_out(1002.5) - dentils_back(1002.5)", "1", "a dentil at both ends"),
        ("teeth_in(1350)", "8", GEOMETRY),
        ("teeth_in(1350, 20)", "7", "six at 173.2 and one of 145 are 1184; another would end at 1358"),
        ("pieces_in(65, 890, 75) * 100 + pieces_in(65, 889, 75)", "1211", "twelve at 65 and eleven joints of 10 are 890"),
        ("nearest(tooth_width() * tooth_width(), 0.01) == nearest(2 * brick_width * brick_width, 0.01)", True, GEOMETRY),
        ("nearest(tooth_pitch() / brick_width, 0.001) > 1", True, "a brick's width on the skew, and more"),
        ("root(6.25) + root(2, 3)", "3.914", "2.5, and the root of 2"),
        ("sine(30, 3) + cosine(60, 3) + tangent(45, 3)", "2", "the equilateral triangle and the square"),
        ("pi(4)", "3.1416", "pi"),
        ("module + course + half", "412.5", SHEET_9),
        ("perpend + bed + joint", "30", SHEET_9),
        ("brick_length + brick_width + brick_height", "382.5", SHEET_9),
    ],
)  # fmt: skip
def test_each_function_gives_what_the_trade_gives(formula, text: str, value: str | bool, source: str) -> None:
    found = formula(text).value({})
    wanted = value if isinstance(value, bool) or value[-1].isalpha() else Fraction(value)
    assert found == wanted, source


def test_every_function_stands_in_the_table_above() -> None:
    [table] = [mark for mark in test_each_function_gives_what_the_trade_gives.pytestmark if mark.name == "parametrize"]
    told = " ".join(text for text, _, _ in table.args[1])
    assert [name for name in vocabulary(GERMAN_NF).functions if f"{name}(" not in told] == []


def test_a_limit_on_a_projection_is_called_by_its_name(formula) -> None:
    with pytest.raises(TradeError, match=r"\Ano limit on a projection is named corbel: use uk_corbel, "):
        formula("projection_total('corbel')").value({})


def test_joint_stands_only_where_perpend_and_bed_agree() -> None:
    assert GERMAN_NF.perpend != GERMAN_NF.bed
    assert "joint" not in vocabulary(GERMAN_NF).constants


def test_the_centres_rule_says_which_arris_is_levelled() -> None:
    rules = {rule: vocabulary(GERMAN_NF, rule) for rule in ("outline", "near")}
    arris = {rule: words.functions["arris"].call(2000, 1600) for rule, words in rules.items()}
    assert {rule: words.constants["arris_rule"] for rule, words in rules.items()} == {
        "outline": "outline",
        "near": "near",
    }
    assert set(arris.values()) == {"top", "underside"}


figures = st.sampled_from(["0", "1", "2", "3.5", "0.5", "0-1", "1/3", "910", "1350", "225", "999999999999999", "0.000001",
                           "10**12*10**11", "1/10**12/10**12", "(1/10**12)**12"])  # fmt: skip
words = st.sampled_from(["1:5", "1:1:6", "0:0", "1:0", "exact", "site", "", "house", "1:99999999999999999999"])


@settings(max_examples=10 * settings.default.max_examples)
@given(st.data())
def test_a_function_gives_a_value_or_says_why_it_is_impossible(formula, data: st.DataObject) -> None:
    format = FORMATS[data.draw(st.sampled_from(sorted(FORMATS)))]
    name, function = data.draw(st.sampled_from(sorted(vocabulary(format).functions.items())))
    count = data.draw(st.integers(2, 4) if function.repeats else st.integers(function.needed, len(function.parameters)))
    kinds = [kind for _, kind in function.parameters] if not function.repeats else ["number"] * count
    drawn = [f"'{data.draw(words)}'" if kind == "word" else data.draw(figures) for kind in kinds[:count]]
    checked = formula(f"{name}({', '.join(drawn)})", format)
    with contextlib.suppress(FormulaImpossible, TradeError):
        checked.figure({}) if checked.kind == "number" else checked.value({})
