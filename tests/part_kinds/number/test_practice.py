"""A figure on the practice page: exact figures to judge by, and no key that says nothing of them."""

from __future__ import annotations

from fractions import Fraction

from courseware.part_kinds.number.practice import KIND, figure_data

SLIPS = [{"value": "bricks / 7", "says": "By weeks"}]


def data(on, before=None):
    return KIND.data(on.asked, on.key, on.solved, on.entries, before or {})


def test_a_figure_has_what_it_is_judged_by(on_paper, number) -> None:
    part = number(answer="bricks / 3", round=2, unit="m", within="0.05", slips=SLIPS,
                  accept=[{"value": "bricks / 2", "says": "By halves"}])  # fmt: skip
    found = data(on_paper(part, bricks=4))
    assert (found["answer"], found["right"], found["exact"], found["places"]) == ("1.33 m", "1.33", "4/3", 2)
    assert (found["unit"], found["within"], found["band"]) == ("m", "0.05", "± 0.05 m")
    assert found["slips"] == [{"right": "0.57", "says": "By weeks"}]  # rounded as the answer is
    assert found["accepts"] == [{"right": "2", "says": "By halves"}]
    assert found["working"] == [{"say": "Work it out", "figure": "1.33 m", "right": "1.33", "unit": "m"}]


def test_an_exact_figure_has_neither_places_nor_another_exact_one(on_paper, number) -> None:
    found = data(on_paper(number(), bricks=4))
    assert found["right"] == "890"
    assert (found["exact"], found["within"], found["band"], found["before"]) == ("", "", "", "")
    assert "places" not in found


def test_what_its_working_comes_to_before_it_is_rounded_goes_with_it(on_paper, number) -> None:
    assert data(on_paper(number(), bricks=4), {"length": Fraction(8901, 10)})["before"] == "890.1"
    assert data(on_paper(number(), bricks=4), {"another": Fraction(1, 2)})["before"] == ""


def test_its_rule_goes_by_the_function_that_answers_it(on_paper, number) -> None:
    rule = data(on_paper(number(), bricks=4))["rule"]
    assert rule[0] == "Pier, brick at both ends: one joint fewer than bricks"
    assert len(set(rule)) == 3
    assert data(on_paper(number(answer="bricks * 2"), bricks=4))["rule"] == []


def test_a_row_of_a_table_has_the_same(on_paper, number) -> None:
    on = on_paper(number(), bricks=4)
    assert figure_data(on.solved, on.key[0], {}) == data(on)
