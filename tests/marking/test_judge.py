"""The marking rules one by one, each figure judged alone; the first that fits holds.

The part is `width` of `bank_for_marking.yaml` on a panel of 4 bricks: 4 × 225 + 10 = 910 mm, 2 marks of which 1 is the
method's. The marks of each rule are ours (DEVELOPERS, "Marks of what cannot be proved from a figure").
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from courseware.banks import read_bank
from courseware.banks.figures import Figure, half_up, whole_as_int
from courseware.banks.number_part import Route, SolvedNumber
from courseware.banks.solve import solve
from courseware.marking.judge import AskedFigure, Verdict, judge, within_band
from courseware.marking.read_answer import read_figure

BANK = Path(__file__).with_name("bank_for_marking.yaml")


def width() -> SolvedNumber:
    bank = read_bank(BANK.read_bytes(), BANK.name)
    exercise = next(one for one in bank.exercises if one.name == "one-opening")
    return solve(exercise, {"bricks": 4})[0].numbers[0]


OWN = width()


def to(places: int | None, exact: str) -> SolvedNumber:
    """The part with another answer, to be rounded to so many places (None: exact); without routes and slips."""
    figure = Fraction(exact)
    part = replace(OWN.part, places=places, accept=(), slips=())
    answer = whole_as_int(figure if places is None else half_up(figure, places))
    return replace(OWN, part=part, exact=whole_as_int(figure), answer=answer, accept=(), slips=(), working=(None,))


def judged(
    typed: str,
    own: SolvedNumber = OWN,
    carried: SolvedNumber | None = None,
    withheld: str = "",
    elsewhere: tuple[int, ...] = (),
    before: Figure | None = None,
) -> Verdict:
    written = read_figure(typed, own.part.unit)
    asked = AskedFigure(
        own=own,
        carried=carried,
        withheld=withheld,
        says=_says,
        key="one-opening/width",
        elsewhere=lambda figure: figure in elsewhere,
        before=(before, None) if carried else (before,),
    )
    return judge(written.figures[0], written, asked)


@pytest.mark.parametrize(
    ("places", "exact", "typed", "how"),
    [
        (1, "37/3", "12⅓", "right"),  # 12.3 is asked for; 12.33 is right, and so is what both stand for
        (1, "37/3", "12 1/3", "right"), (1, "37/3", "37/3", "right"), (1, "37/3", "12⅔", "unknown"),
        (0, "25/2", "12½", "right"), (0, "25/2", "25/2", "right"), (0, "25/2", "12¾", "unknown"),
        (3, "5/2", "2½", "right"), (None, "37/3", "12⅓", "right"), (None, "25/2", "12½", "right"),
    ],
)  # fmt: skip
def test_a_fraction_is_judged_as_the_same_figure_in_decimals(places, exact, typed, how) -> None:
    assert judged(typed, to(places, exact)).how == how


@pytest.mark.parametrize(
    ("places", "slip", "typed", "how"),
    [
        (1, "37/3", "12.33", "slip"), (1, "37/3", "12⅓", "slip"), (0, "25/2", "12.5", "slip"), (0, "25/2", "12½", "slip"),
        (0, "25/2", "12⅓", "unknown"),
    ],
)  # fmt: skip
def test_a_slip_is_seen_in_a_fraction_too(places: int, slip: str, typed: str, how: str) -> None:
    own = to(places, "999")
    route = OWN.part.slips[0]
    own = replace(own, part=replace(own.part, slips=(route,)), slips=(half_up(Fraction(slip), places),))
    assert judged(typed, own).how == how


def _says(route: Route) -> str:
    return route.says.render({}, {}).rstrip(".")


@pytest.mark.parametrize(
    ("typed", "how", "marks"),
    [
        ("910", "right", 2), ("0.91 m", "right", 2),
        ("925", "route", 2), ("935", "route", 1),
        ("900", "slip", 1), ("890", "slip", 0),
        ("910 kg", "unit", 1), ("910 cm", "unit", 1), ("777 kg", "unknown", 0),
        ("9100", "tens", 1), ("901", "swapped", 1), ("190", "swapped", 1), ("109", "unknown", 0), ("777", "unknown", 0),
    ],
)  # fmt: skip
def test_the_first_rule_that_fits_gives_the_marks(typed: str, how: str, marks: int) -> None:
    """901 and 190 have two neighbours exchanged; 109 has all its digits turned round."""
    verdict = judged(typed)
    assert (verdict.how, verdict.marks) == (how, marks)


@pytest.mark.parametrize(("typed", "named"), [("-910", True), ("−0.91 m", True), ("-911", False), ("910", False)])
def test_a_minus_before_the_right_figure_is_named_and_left_to_a_person(typed: str, named: bool) -> None:
    """How far below: some write the direction as a sign. It earns nothing by itself and is no named slip."""
    verdict = judged(typed)
    assert ("with a minus sign" in verdict.why) is named
    assert not named or (verdict.how, verdict.marks) == ("unknown", 0)


def test_a_slip_is_named_by_its_place_in_the_bank() -> None:
    [slip] = judged("900").slips
    assert (slip.key, slip.says) == ("one-opening/width/1", "The extra joint was left out")


def test_a_figure_that_two_slips_give_names_both_and_earns_the_less() -> None:
    both = replace(OWN, slips=(900, 900, *OWN.slips[2:]))  # of which the first earns a mark, the second none
    verdict = judged("900", both)
    assert (verdict.how, verdict.marks, len(verdict.slips)) == ("family", 0, 2)
    assert verdict.why == "One of: The extra joint was left out; or: Treated as a pier."


@pytest.mark.parametrize(
    ("value", "within"), [(904, False), (905, True), (910, True), (915, True), (916, False)]
)  # fmt: skip
def test_a_band_holds_its_own_ends(value: int, within: bool) -> None:
    assert within_band(value, 910, 5) is within
    assert (judged(str(value), replace(to(None, "910"), within=5)).how == "right") is within


def test_without_a_band_nothing_but_the_answer_is_right() -> None:
    assert within_band(910, 910, 0)
    assert not within_band(Fraction("910.001"), 910, 0)


@pytest.mark.parametrize("power", [-7, -6, -5, -4, -3, -2, -1, 1, 2, 3, 4, 5, 6, 7])
def test_the_digits_are_right_up_to_six_powers_of_ten_away(power: int) -> None:
    """Written as 9100 or 0.00091 it earns its method mark, further off it is another figure."""
    written = Fraction(910) * Fraction(10) ** power
    typed = f"{float(written):.9f}".rstrip("0").rstrip(".")
    verdict = judged(typed, to(None, "910"))
    assert (verdict.how, verdict.marks) == (("tens", 1) if abs(power) <= 6 else ("unknown", 0)), typed


@pytest.mark.parametrize(
    ("exact", "places", "typed", "how", "why"),
    [
        ("1.918", 2, "1.92", "right", "Right."),
        ("1.918", 2, "1.918", "right", "Right."),  # not rounded, yet the same figure
        ("1.918", 2, "1.91", "rounding", "Cut off, not rounded, at 2 decimal places."),
        ("1.918", 2, "1.9", "rounding", "Rounded further than asked: 2 decimal places wanted."),
        ("1.918", 2, "2", "rounding", "Rounded further than asked: 2 decimal places wanted."),
        ("1.918", 2, "1.8", "unknown", "Not recognised. See the working."),
        ("697.5", None, "698", "rounding", "Rounded, where the exact figure was asked."),
        ("697.5", None, "697.5", "right", "Right."),
        ("697.5", None, "696", "unknown", "Not recognised. See the working."),
    ],
)  # fmt: skip
def test_a_fault_of_rounding_costs_one_mark(exact: str, places: int | None, typed: str, how: str, why: str) -> None:
    verdict = judged(typed, to(places, exact))
    assert (verdict.how, verdict.why) == (how, why)
    assert verdict.marks == {"right": 2, "rounding": 1, "unknown": 0}[how]


@pytest.mark.parametrize(("exact", "how"), [("9.47", "rounding"), ("180/19", "unknown"), ("9.48", "unknown")])
def test_rounded_by_a_twentieth_or_more_it_is_another_figure(exact: str, how: str) -> None:
    """9 for what was to have one decimal: 180/19 = 9.4737, and 9 is exactly a twentieth of it less."""
    assert judged("9", to(1, exact)).how == how


@pytest.mark.parametrize(
    ("typed", "how"), [("8.3", "unknown"), ("8.33", "right"), ("8.333", "right"), ("8.34", "unknown")]
)
def test_a_figure_without_end_may_be_written_to_two_decimals_or_more(typed: str, how: str) -> None:
    """25/3 = 8.333…, asked exactly. Two places are enough; one is not."""
    assert judged(typed, to(None, "25/3")).how == how


@pytest.mark.parametrize(
    ("typed", "why"),
    [("2291", "Rounded the other way."), ("2291.6", "Not rounded to a whole number."), ("2290", "Not recognised. See the working.")],
)  # fmt: skip
def test_a_whole_number_rounded_the_other_way_is_told_as_that(typed: str, why: str) -> None:
    """2291.625 bricks are rounded up to 2292; `before` is what the working comes to."""
    assert judged(typed, to(None, "2292"), before=Fraction("2291.625")).why == why


def test_right_from_the_learners_own_earlier_answer_earns_all_marks() -> None:
    verdict = judged("1000", carried=replace(OWN, exact=1000, answer=1000, accept=(1015, 1025), slips=(990, 980, 860)))
    assert (verdict.how, verdict.marks) == ("carried", 2)


def test_a_slip_made_on_carried_figures_is_still_the_same_slip() -> None:
    carried = replace(OWN, exact=1000, answer=1000, accept=(1015, 1025), slips=(990, 980, 860))
    assert [judged(typed, carried=carried).how for typed in ("990", "1015", "910")] == ["slip", "route", "right"]
    assert judged("990", carried=carried).slips[0].key == "one-opening/width/1"


def test_where_nothing_can_be_carried_on_the_reason_is_told() -> None:
    verdict = judged("777", withheld="The earlier answer cannot be carried on: it gives nothing, or less.")
    assert (verdict.how, verdict.marks) == ("withheld", 0)
    assert verdict.why == "The earlier answer cannot be carried on: it gives nothing, or less. See the working."


def test_another_papers_answer_earns_nothing_and_says_so() -> None:
    verdict = judged("1135", elsewhere=(1135,))
    assert (verdict.how, verdict.marks) == ("elsewhere", 0)
    assert "Check the paper code" in verdict.why


@pytest.mark.parametrize("typed", ["9100", "901"])
def test_method_marks_are_never_all_of_a_part(typed: str) -> None:
    """A part of one mark whose only line is the method's: the answer is not right, so it earns nothing."""
    one = replace(OWN, part=replace(OWN.part, marks=1, accept=(), slips=()), accept=(), slips=())
    assert judged(typed, one).marks == 0


def test_a_unit_where_none_is_asked_is_told_as_that() -> None:
    bare = replace(OWN, part=replace(OWN.part, unit=""))
    assert judged("910 kg", bare).why == "The right figure with another unit: none was asked."
    assert judged("777 kg", bare).why == "A unit where none is asked, and another figure. See the working."
