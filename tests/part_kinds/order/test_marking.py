"""What an order earns, and what is said of it."""

from __future__ import annotations

import pytest

from courseware.part_kinds.order.marking import mark_order


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
