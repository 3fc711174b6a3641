"""Letters, ticks and orders: how they are read, what they earn, and what is said of them."""

from __future__ import annotations

import pytest

from courseware.marking.lettered import read_letters
from courseware.marking.marks import NamedSlip
from courseware.marking.part_kind import NotRead
from courseware.part_kinds.choice.marking import mark_one, mark_several
from courseware.part_kinds.drawn.marking import mark_ticks, read_ticks
from courseware.part_kinds.order.marking import mark_order

SLIP = NamedSlip(key="piers/which/choice-2", says="Treated as an opening")


@pytest.mark.parametrize(
    ("typed", "letters"),
    [
        ("B", "B"),
        ("b", "B"),
        ("A, C and D", "ACD"),
        ("a then b", "AB"),
        ("D>C>B", "DCB"),
        ("(c)", "C"),
        ("A → B", "AB"),
        ("A" + " " * 78 + "B", "AB"),  # eighty signs are read
    ],
)
def test_letters_are_read_in_the_order_in_which_they_stand(typed: str, letters: str) -> None:
    assert read_letters(typed, 4) == tuple(letters)


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        (" , ", "no letter stands here"),
        ("A" + " " * 79 + "B", "no letter stands here"),  # eighty-one are a note, no answer
        ("E", "`E` is not one of the letters A to D"),
        ("A2", "`2` is not one of the letters A to D"),
        ("ABA", "a letter stands twice"),
    ],
)
def test_letters_that_a_person_must_settle(typed: str, why: str) -> None:
    with pytest.raises(NotRead) as asked:
        read_letters(typed, 4)
    assert str(asked.value) == why


@pytest.mark.parametrize(
    ("typed", "ticks"),
    [
        ("yyn", (True, True, False)),
        ("Y, n; Y", (True, False, True)),
        ("yes no yes", (True, False, True)),
        ("1 0 1", (True, False, True)),
        ("✓✗x", (True, False, False)),
        ("all", (True, True, True)),
        ("None", (False, False, False)),
        ("y" + " " * 77 + "nn", (True, False, False)),  # eighty signs
    ],
)
def test_a_tick_for_each_point(typed: str, ticks: tuple[bool, ...]) -> None:
    assert read_ticks(typed, 3) == ticks


@pytest.mark.parametrize("typed", ["yy", "yyny", "yyq", "", "some"])
def test_ticks_that_a_person_must_settle(typed: str) -> None:
    with pytest.raises(NotRead) as asked:
        read_ticks(typed, 3)
    assert str(asked.value) == "write y or n for each of the 3 points, as yyn; or all, or none"


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


@pytest.mark.parametrize(
    ("written", "marks", "how", "why"),
    [
        ("ABCD", 3, "right", "Right."),
        ("BACD", 2, "partly", "2 of 3 pairs kept; not kept: A before B."),
        ("DCBA", 0, "wrong", "0 of 3 pairs kept; not kept: A before B, B before C, C before D."),
        ("ABC", 2, "partly", "1 left out; 2 of 3 pairs kept; not kept: C before D."),
        ("A", 0, "wrong", "3 left out; 0 of 3 pairs kept; not kept: A before B, B before C, C before D."),
    ],
)
def test_an_order_is_marked_by_the_pairs_kept(written: str, marks: int, how: str, why: str) -> None:
    """A before B before C before D, for 3 marks."""
    verdict = mark_order(tuple(written), [("A", "B"), ("B", "C"), ("C", "D")], 4, 3)
    assert (verdict.marks, verdict.how, verdict.why) == (marks, how, why)


def test_an_order_that_leaves_out_a_step_which_is_in_no_pair_loses_a_mark() -> None:
    verdict = mark_order(("A", "B"), [("A", "B")], 3, 2)
    assert (verdict.marks, verdict.how) == (1, "partly")
    assert verdict.why == "1 left out; 1 of 1 pairs kept; every pair written is kept."
    alone = mark_order(("A", "B"), [("A", "B")], 3, 1)
    assert (alone.marks, alone.how) == (0, "wrong")


@pytest.mark.parametrize(
    ("ticks", "marks", "how", "why"),
    [
        ("yyy", 6, "right", "Every point is there."),
        ("yny", 4, "partly", "2 of 3 points; missing: point 2."),
        ("nyn", 2, "partly", "1 of 3 points; missing: point 1, 3."),
        ("nnn", 0, "wrong", "0 of 3 points; missing: point 1, 2, 3."),
    ],
)
def test_a_drawing_is_marked_by_its_points(ticks: str, marks: int, how: str, why: str) -> None:
    """Three points for 6 marks, two each."""
    verdict = mark_ticks([tick == "y" for tick in ticks], 6)
    assert (verdict.marks, verdict.how, verdict.why) == (marks, how, why)
