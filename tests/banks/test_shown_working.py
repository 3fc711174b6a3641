"""The working, worked again from the figures that the key shows, must land within what is accepted."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks import prove
from courseware.banks.shown_working import before_rounding


def part(number, lines: list[str], **keys: object):
    working = [{"say": f"Line {n}", "value": value} for n, value in enumerate(lines, 1)]
    return number("long", keys.pop("answer", "diagonal(wide, high)"), round=0, working=working, **keys)


SIDES = {"wide": [1000], "high": [1046.5]}
TENTHS = ["nearest(diagonal(wide, high), 0.1)", "nearest(diagonal(wide, high), 1)"]


def test_a_figure_rounded_to_a_half_and_rounded_again_is_refused(exercise, number) -> None:
    # By Pythagoras √(1000² + 1046.5²) = 1447.467…: shown as 1447.5, rounded from that 1448, where the key says 1447.
    at = exercise(given=SIDES, parts=[part(number, TENTHS)])
    assert prove(at).failure.why == (
        "long: line 1 of the working shows 1447.5, and worked from that the last line gives 1448, which is not accepted "
        "beside 1447: show line 1 with more places, or give the part a band with `within`"
    )


@pytest.mark.parametrize(
    "keys",
    [
        {"within": "1"},
        {"accept": [{"value": "up(diagonal(wide, high))", "says": "Rounded twice"}]},
    ],
    ids=["a band", "an accepted route"],
)  # fmt: skip
def test_a_band_or_a_route_that_takes_it_in_is_accepted(exercise, number, keys: dict[str, object]) -> None:
    taken = exercise(given=SIDES, parts=[part(number, TENTHS, fixed=False, **keys)])
    assert prove(taken).failure is None


@pytest.mark.parametrize(("band", "sound"), [("0.9", False), ("1", True), ("1.1", True)])
@pytest.mark.parametrize(("high", "to"), [(1046.5, "1448"), (1047.2, "1447")])
def test_a_band_takes_in_what_lies_at_its_edge_above_and_below(exercise, number, high, to, band, sound) -> None:
    """√(1000² + 1047.2²) = 1447.973…: cut off to 1447 where the key says 1448; 1447.467… shown as 1447.5 is 1448."""
    lines = TENTHS if to == "1448" else ["down(diagonal(wide, high))", TENTHS[1]]
    failure = prove(exercise(given={**SIDES, "high": [high]}, parts=[part(number, lines, within=band)])).failure
    assert (failure is None) is sound
    assert sound or f"the last line gives {to}, which is not accepted" in failure.why


def test_a_line_shown_with_more_places_is_accepted(exercise, number) -> None:
    hundredths = ["nearest(diagonal(wide, high), 0.001)", TENTHS[1]]
    assert prove(exercise(given=SIDES, parts=[part(number, hundredths)])).failure is None


@pytest.mark.parametrize(
    ("first", "last", "sound"),
    [
        ("nearest(wide / 7, 1)", "nearest(wide / 7 * 30, 1)", False),
        ("nearest(wide / 7, 0.00001)", "nearest(wide / 7 * 30, 1)", True),
        ("up(wide / 7)", "nearest(30 * wide / 7, 1)", False),
        ("wide * 30", "nearest(30 * wide / 7, 1)", True),  # not rounded: shown as it is
        ("nearest(wide / 9, 1)", "nearest(30 * wide / 7, 1)", True),  # not what the last line goes by
        ("nearest(wide / 7, 1)", "nearest(30 * nearest(wide / 7, 1), 1)", None),  # goes by the figure shown: another answer
    ],
)  # fmt: skip
def test_a_rounded_line_within_the_last_one(exercise, number, first: str, last: str, sound: bool | None) -> None:
    lines = [{"say": "First", "value": first}, {"say": "Last", "value": last}]
    proof = prove(exercise(given={"wide": "50 to 55"}, parts=[number("long", "wide * 30 / 7", round=0, working=lines)]))
    if sound:
        assert proof.failure is None
    elif sound is None:
        assert "the last line of the working" in proof.failure.why
    else:
        assert "line 1 of the working shows" in proof.failure.why


def test_a_row_of_a_table_is_worked_again_too(exercise, number) -> None:
    row = {key: value for key, value in part(number, TENTHS).items() if key != "ask"} | {"say": "Diagonal?"}
    table = {"name": "sizes", "kind": "table", "ask": "Fill in.", "rows": [row]}
    assert "line 1 of the working shows 1447.5" in prove(exercise(given=SIDES, parts=[table])).failure.why


@pytest.mark.parametrize(
    ("lines", "before"),
    [
        (["wide", "up(wide / 7)"], Fraction(50, 7)),
        (["wide", "wide * 2", "nearest(wide / 7, 1)"], Fraction(50, 7)),
        (["nearest(wide / 7, 1)"], Fraction(50, 7)),
        (["wide", "nearest(wide / 7, 0.5)"], Fraction(50, 7)),  # 7, a whole number
        (["wide", "nearest(wide / 7, 0.1)"], None),  # 7.1 is none
        (["wide", "up(wide / 10)"], None),  # five without being rounded
        (["up(wide / 7)", "wide / 10"], None),  # an earlier line alone is rounded
        (["wide", "'eight'"], None),
        (["wide", "wide > 7"], None),
    ],
)
def test_what_a_last_line_comes_to_before_it_is_rounded_to_a_whole_number(exercise, number, lines, before) -> None:
    """Of 50 mm."""
    [asked] = exercise(given={"wide": [50]}, parts=[part(number, lines, answer="8", fixed=True)]).parts
    assert before_rounding(asked, {"wide": 50}) == before
