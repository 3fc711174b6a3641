"""Units as learners write them: what each measures, and how one becomes another, exactly. Source: si-units."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.marking.units import Unit, own_unit, unit_named


@pytest.mark.parametrize(
    ("larger", "smaller", "times"),
    [
        ("m", "mm", "1000"), ("cm", "mm", "10"), ("in", "mm", "25.4"),
        ("m²", "mm²", "1000000"), ("m²", "cm²", "10000"),
        ("m³", "litres", "1000"), ("litre", "mm³", "1000000"),
        ("kg", "g", "1000"), ("tonne", "kg", "1000"),
        ("hour", "minute", "60"),
    ],
)  # fmt: skip
def test_a_unit_is_so_many_of_another(larger: str, smaller: str, times: str) -> None:
    large, small = own_unit(larger), own_unit(smaller)
    assert large.measures == small.measures
    assert large.size / small.size == Fraction(times)


@pytest.mark.parametrize(
    ("typed", "means"),
    [
        ("millimetres", "mm"), ("MM", "mm"), ("Metres", "m"), ("inches", "in"), ('"', "in"),
        ("m2", "m²"), ("sq m", "m²"), ("sq  m", "m²"), ("m^2", "m²"), ("cu m", "m³"), ("m3", "m³"),
        ("kilos", "kg"), ("deg", "°"), ("hrs", "hours"), ("per cent", "%"), ("dB", "dB(A)"),
    ],
)  # fmt: skip
def test_a_unit_is_known_by_its_other_names(typed: str, means: str) -> None:
    """In small or capital letters, and however many blanks stand between its words."""
    assert unit_named(typed, "mm") == own_unit(means)


@pytest.mark.parametrize("typed", ["M", "G", "T", "L", "H", "P"])
def test_a_lone_capital_is_no_unit(typed: str) -> None:
    """M may be a million, or mark a method; the small letter is the unit."""
    assert unit_named(typed, "mm") is None
    assert unit_named(typed.lower(), "mm") is not None


@pytest.mark.parametrize(
    ("typed", "printed", "known"),
    [
        ("bricks", "bricks", True), ("brick", "bricks", True), ("Bricks", "brick", True), ("packs", "bricks", False),
        ("nr", "bricks", True), ("no", "bricks", True), ("off", "bricks", True),
        ("nr", "mm", False), ("off", "", False), ("yards", "mm", False), ("", "bricks", False),
    ],
)  # fmt: skip
def test_what_is_counted_is_named_as_the_paper_names_it_or_as_a_bill_counts(
    typed: str, printed: str, known: bool
) -> None:
    """60 bricks, 60 brick and 60 nr are one figure; 60 packs is another. A length is not counted."""
    assert unit_named(typed, printed) == (own_unit(printed) if known else None)


def test_a_unit_in_no_table_measures_itself_alone() -> None:
    assert own_unit("bags") == Unit("bags", Fraction(1))
    assert own_unit("bags").measures != own_unit("bricks").measures
