"""A cell read as a figure: every row of written_cases.csv, which the practice page's own reading is held to as well."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from courseware.marking.read_answer import read_figure, settled

CASES = list(csv.DictReader(Path(__file__).with_name("written_cases.csv").read_text(encoding="utf-8").splitlines()))
READ = [case for case in CASES if case["reading"] in {"figure", "wrong unit"}]
NOT_READ = [case for case in CASES if case["reading"] not in {"figure", "wrong unit"}]


def named(case: dict[str, str]) -> str:
    return f"{case['typed'][:20]}|{case['unit']}|{case['expected']}|{(case['asked'] or '')[:12]}"


@pytest.mark.parametrize("case", READ, ids=named)
def test_a_figure_is_read_exactly(case: dict[str, str]) -> None:
    written = read_figure(case["typed"], case["unit"], case["asked"] or "")
    assert written.reading == case["reading"], case["note"]
    expected = Fraction(case["expected"]) if case["expected"] else written.figures[0]
    figure = settled(written, expected)
    assert figure == Fraction(case["value"]), case["note"]
    assert len(written.figures) > 1 or written.decimals == int(case["decimals"]), case["note"]


@pytest.mark.parametrize("case", NOT_READ, ids=named)
def test_what_is_no_figure_is_never_guessed(case: dict[str, str]) -> None:
    written = read_figure(case["typed"], case["unit"], case["asked"] or "")
    if len(written.figures) > 1:  # a comma that could be either: nothing settles it
        assert settled(written, Fraction(case["expected"] or 0)) is None, case["note"]
    else:
        assert (written.reading, written.figures) == (case["reading"], ()), case["note"]
    assert case["reading"] != "person" or len(written.figures) > 1 or written.why, "a person is told why"


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("1" * 61, "it is too long for a figure"),
        ("twelve", "it does not read as one figure"),
        ("1/0", "it does not read as one figure"),
        ("1,2,3", "it does not read as one figure"),
        ("910 yards", "the unit `yards` is not known here"),
    ],
)
def test_a_person_is_told_why_a_cell_is_no_figure(typed: str, why: str) -> None:
    assert read_figure(typed, "mm").why == why


@pytest.mark.parametrize(
    ("typed", "unit", "decimals", "places"),
    [
        ("0.910 m", "mm", 3, 0),
        ("0.9105 m", "mm", 4, 1),
        ("91.05 cm", "mm", 2, 1),
        ("12537 mm", "m", 0, 3),
        ("910 mm", "mm", 0, 0),
        ("1.50 in", "mm", 2, 1),  # 25.4 mm: a hundredth of an inch is no tenth of a millimetre, and no hundredth
        ("0.5 m²", "mm²", 1, 0),
        ("½ m", "mm", 0, 0),
    ],
)
def test_the_decimals_typed_are_those_of_the_parts_unit(typed: str, unit: str, decimals: int, places: int) -> None:
    written = read_figure(typed, unit)
    assert (written.decimals, written.places) == (decimals, places)


def test_the_cases_hold_every_reading_and_every_unit_of_the_banks() -> None:
    assert {case["reading"] for case in CASES} == {"blank", "not reached", "figure", "wrong unit", "person"}
    units = {
        "mm",
        "m",
        "m²",
        "m³",
        "mm²",
        "kg",
        "bags",
        "bricks",
        "courses",
        "degrees",
        "°",
        "minutes",
        "hours",
        "pence",
        "in",
        "dB(A)",
        "",
    }
    assert units <= {case["unit"] for case in READ}


@pytest.mark.parametrize(
    ("expected", "meant"),
    [("11249", 1125), ("11250", 1125), ("11251", None), ("112.6", 1125), ("112.5", 1125), ("112.4", None)],
)
def test_a_comma_is_settled_within_a_factor_of_ten_either_way_and_no_further(expected: str, meant: int | None) -> None:
    """1,125 is 1125 or 1.125."""
    assert settled(read_figure("1,125", "mm"), Fraction(expected)) == meant


@pytest.mark.parametrize(("known", "meant"), [([], 1125), ([Fraction("1.125")], None), ([Fraction("1.126")], 1125)])
def test_a_comma_is_not_settled_where_the_other_reading_is_known(known: list[Fraction], meant: int | None) -> None:
    assert settled(read_figure("1,125", "mm"), Fraction(1125), known) == meant
