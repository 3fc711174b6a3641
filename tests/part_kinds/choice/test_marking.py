"""What ticks earn, and what is said of them."""

from __future__ import annotations

import pytest

from courseware.marking.marks import NamedSlip
from courseware.part_kinds.choice.marking import mark_one, mark_several

SLIP = NamedSlip(key="piers/which/choice-2", says="Treated as an opening")


def test_what_is_said_of_a_choice_of_one() -> None:
    assert (mark_one(["B"], "B", 2, None).marks, mark_one(["B"], "B", 2, None).why) == (2, "Right.")
    assert mark_one(["A"], "B", 2, None).why == "A was ticked; B is right."
    assert mark_one(["A", "B"], "B", 2, None).why == "2 ticked where one is right."
    slipped = mark_one(["A"], "B", 2, SLIP)
    assert (slipped.how, slipped.marks, slipped.why, slipped.slips) == ("slip", 0, "Treated as an opening.", (SLIP,))


@pytest.mark.parametrize(
    ("ticked", "marks", "how", "why"),
    [
        ("AB", 4, "right", "Right."),
        ("A", 2, "partly", "1 of 2 right ones ticked, 0 wrong."),  # a half of 4
        ("ABC", 2, "partly", "2 of 2 right ones ticked, 1 wrong."),  # 1 − ½
        ("AC", 0, "wrong", "1 of 2 right ones ticked, 1 wrong."),  # ½ − ½
        ("ABCD", 0, "wrong", "2 of 2 right ones ticked, 2 wrong."),
        ("CD", 0, "wrong", "0 of 2 right ones ticked, 2 wrong."),  # not below nothing
    ],
)
def test_several_are_marked_by_the_share_of_right_ticks_less_that_of_wrong_ones(
    ticked: str, marks: int, how: str, why: str
) -> None:
    """A and B are right of A to D, for 4 marks."""
    verdict = mark_several(tuple(ticked), ["A", "B"], "ABCD", 4, (SLIP,))
    assert (verdict.marks, verdict.how, verdict.why) == (marks, how, why)
    assert verdict.slips == (() if how == "right" else (SLIP,))
