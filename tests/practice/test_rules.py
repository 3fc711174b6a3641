"""Which rule is this: one right, two that it is mistaken for, never two that say the same."""

from __future__ import annotations

from courseware.banks import read_bank
from courseware.banks.vocabulary import vocabulary
from courseware.practice.rules import RULES, Rule, rule_of
from courseware.trade import UK_METRIC

BANK = """
topic: T
aim: A
exercises:
  - name: one
    level: 1
    given: {bricks: 3 to 9}
    pose: P
    parts:
      - {name: a, ask: A, answer: %s, unit: mm, marks: 1, working: [{say: So, value: %s}]}
"""


def rule_for(answer: str) -> Rule | None:
    bank = read_bank((BANK % (answer, answer)).encode(), "t.yaml")
    return rule_of(bank.exercises[0].numbers[0])


def test_each_rule_is_of_a_function_that_formulas_have_and_differs_from_what_stands_beside_it() -> None:
    assert set(RULES) <= set(vocabulary(UK_METRIC).functions)
    assert all(len(set(three)) == 3 for three in RULES.values())


def test_the_rule_is_that_of_the_function_that_answers_the_part() -> None:
    found = rule_for("pier(bricks)")
    assert found is not None
    assert found.right == "Pier, brick at both ends: one joint fewer than bricks"  # Sheet 9, Table 1: CO - Joint
    assert "Opening: one joint more than bricks" in found.others


def test_a_length_in_inches_has_the_rule_of_the_length() -> None:
    assert rule_for("inches(opening(bricks))") == rule_for("opening(bricks)")


def test_an_answer_of_several_steps_has_no_one_rule() -> None:
    assert rule_for("opening(bricks) + pier(bricks)") is None
    assert rule_for("bricks * 60") is None
