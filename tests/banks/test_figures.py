"""How figures are rounded, written out and kept."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.banks.figures import DoesNotWriteOut, exact_text, half_up, whole_as_int, write_out


@pytest.mark.parametrize(
    ("value", "places", "rounded"),
    [
        ("0.125", 2, "0.13"),  # a float rounds this tie to the even 0.12
        ("2.5", 0, "3"),
        ("3.5", 0, "4"),
        ("2.675", 2, "2.68"),  # and stands below this one
        ("1.005", 2, "1.01"),
        ("0.0005", 3, "0.001"),
        ("0.00049", 3, "0"),
        ("2/3", 2, "0.67"),
        ("1/3", 3, "0.333"),
        ("910", 2, "910"),
        ("9.995", 2, "10"),
        ("-2.5", 0, "-2"),  # upwards, also below nothing
        ("-2.6", 0, "-3"),
    ],
)
def test_halves_go_up(value: str, places: int, rounded: str) -> None:
    found = half_up(whole_as_int(Fraction(value)), places)
    assert found == Fraction(rounded)
    assert type(found) is type(whole_as_int(Fraction(rounded)))


@settings(deadline=None)
@given(st.fractions(-1000, 1000), st.integers(0, 6))
def test_a_rounded_figure_is_within_half_a_place_and_rounds_to_itself(value: Fraction, places: int) -> None:
    found = half_up(value, places)
    step = Fraction(1, 10**places)
    assert -step / 2 < found - value <= step / 2
    assert half_up(found, places) == found
    assert (found * 10**places).denominator == 1


@pytest.mark.parametrize(
    ("value", "written"),
    [
        ("910", "910"),
        ("0", "0"),
        ("-3", "−3"),
        ("112.5", "112.5"),
        ("46.25", "46.25"),
        ("0.000001", "0.000001"),
        ("-0.5", "−0.5"),
        ("1/3", "⅓"),
        ("37/3", "12⅓"),
        ("-37/3", "−12⅓"),
        ("5/6", "⅚"),
        ("4/9", "4/9"),
        ("31/9", "3 4/9"),
        ("7/12", "7/12"),
        ("999999999999999", "999999999999999"),
    ],
)
def test_a_figure_is_written_as_it_is_printed(value: str, written: str) -> None:
    assert write_out(whole_as_int(Fraction(value))) == written
    assert write_out(Fraction(value)) == written


@pytest.mark.parametrize(
    ("value", "places", "written"),
    [("1.23", 3, "1.230"), ("910", 0, "910"), ("910", 2, "910.00"), ("2.5", 0, "3"), ("0.005", 2, "0.01"),
     ("0.05", 3, "0.050"), ("2/3", 2, "0.67"), ("9.999", 2, "10.00"), ("-1.5", 1, "−1.5")],
)  # fmt: skip
def test_a_rounded_figure_keeps_its_noughts(value: str, places: int, written: str) -> None:
    assert write_out(whole_as_int(Fraction(value)), places) == written


@pytest.mark.parametrize(
    ("value", "written"),
    [("23.625", "23⅝"), ("0.5", "½"), ("7.625", "7⅝"), ("15.0625", "15 1/16"), ("0.9375", "15/16"), ("8", "8"), ("2.25", "2¼"),
     ("37/3", "12⅓")],
)  # fmt: skip
def test_inches_are_written_in_fractions(value: str, written: str) -> None:
    assert write_out(Fraction(value), fraction=True) == written


@pytest.mark.parametrize(
    ("value", "why"),
    [
        ("1/7", "it does not write out exactly: round it, as in nearest(x, 0.01)"),
        ("0.0000001", "it does not write out exactly: round it, as in nearest(x, 0.01)"),
        ("1000000000000000", "it has more than 15 digits"),
        ("-1000000000000000", "it has more than 15 digits"),
        ("1000000000000000.5", "it has more than 15 digits"),
    ],
)
def test_what_has_no_short_form_must_be_rounded_first(value: str, why: str) -> None:
    with pytest.raises(DoesNotWriteOut, match=rf"\A{why.replace('(', '.').replace(')', '.')}\Z"):
        write_out(whole_as_int(Fraction(value)))


@pytest.mark.parametrize(
    ("value", "kept"),
    [("910", "910"), ("112.5", "112.5"), ("-0.5", "-0.5"), ("0.000001", "0.000001"), ("37/3", "37/3"),
     ("-1/7", "-1/7"), ("0", "0"), ("0.0000001", "1/10000000")],
)  # fmt: skip
def test_a_sitting_keeps_a_figure_exactly(value: str, kept: str) -> None:
    assert exact_text(whole_as_int(Fraction(value))) == kept


@settings(deadline=None)
@given(st.fractions())
def test_what_a_sitting_keeps_reads_back_the_same(value: Fraction) -> None:
    assert Fraction(exact_text(value)) == value


@settings(deadline=None)
@given(st.integers(-(10**9), 10**9), st.sampled_from([1, 2, 4, 5, 8, 10, 16, 1000, 10**6]))
def test_a_decimal_written_out_reads_back_the_same(above: int, below: int) -> None:
    assert Fraction(write_out(Fraction(above, below)).replace("−", "-")) == Fraction(above, below)
