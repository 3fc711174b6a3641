"""What a sheet newly decides: what stands on it as it stood before is not decided again, whatever came since."""

from __future__ import annotations

import pytest

from courseware.database.deciding import TYPED, Said, added, differing, one_a_part
from courseware.marking.marks import Decision

SHEET = "marking-sheet.xlsx"
OTHER = "two-markers.xlsx"


def mark(marks: int | None, reason: str = "", comment: str = "", label: str = "1a") -> Decision:
    return Decision(code="a paper", label=label, marks=marks, reason=reason, comment=comment)


ONE, NONE, TWO = mark(1, "method shown"), mark(0, "from the board"), mark(2, "asked about it")
REMARK = mark(None, comment="Show the joint.")


def new_ones(had, on_sheet, typed) -> tuple[Said, ...]:
    """What J. Marsh newly decides, where the newest decision that the record has of each part stands."""
    standing = {row.decision.label: row.decision for row in had}
    return added(had, on_sheet, typed, standing=list(standing.values()), by="J. Marsh", source=SHEET)


def said(decision: Decision, source: str = SHEET, by: str = "J. Marsh") -> Said:
    return Said(decision=decision, by=by, source=source)


@pytest.mark.parametrize(
    ("had", "on_sheet", "typed", "new"),
    [
        ([], [ONE], [], [said(ONE)]),
        ([said(ONE)], [ONE], [], []),
        ([said(ONE)], [NONE], [], [said(NONE)]),
        ([said(ONE), said(NONE)], [ONE], [], [said(ONE)]),  # changed on the sheet, and back
        ([said(ONE), said(NONE, TYPED)], [ONE], [], []),
        ([said(ONE), said(NONE, TYPED)], [TWO], [], [said(TWO)]),
        ([said(ONE), said(NONE, OTHER)], [ONE], [], []),
        ([said(ONE), said(NONE, TYPED, "P. Reed")], [ONE], [], []),
        ([said(ONE, by="P. Reed"), said(NONE, TYPED, "P. Reed")], [ONE], [], []),  # the same sheet, in other hands
        ([said(ONE), said(NONE, by="P. Reed")], [ONE], [], []),  # a copy each
        ([said(ONE), said(NONE, by="P. Reed")], [TWO], [], [said(TWO)]),
        ([said(ONE, ""), said(NONE, "")], [ONE], [], []),  # noted before sheets were
        ([said(ONE, ""), said(NONE, ""), said(NONE)], [ONE], [], [said(ONE)]),
        ([], [ONE], [NONE], [said(ONE), said(NONE, TYPED)]),
        ([said(ONE)], [ONE], [NONE], [said(NONE, TYPED)]),
        ([said(ONE), said(NONE, TYPED)], [ONE], [NONE], []),
        ([said(ONE), said(NONE, TYPED)], [ONE], [ONE], [said(ONE, TYPED)]),
        ([said(NONE, TYPED), said(TWO, TYPED, "P. Reed")], [], [NONE], []),
        ([], [], [ONE], [said(ONE, TYPED)]),
        ([], [ONE, mark(1, "shown", label="1b")], [], [said(ONE), said(mark(1, "shown", label="1b"))]),
    ],
)  # fmt: skip
def test_what_is_new(had, on_sheet, typed, new) -> None:
    assert new_ones(had, on_sheet, typed) == tuple(new)


@pytest.mark.parametrize(
    ("had", "on_sheet", "marks"),
    [([said(ONE)], [ONE], 1), ([], [ONE], 1), ([said(ONE), said(NONE, TYPED)], [ONE], 0)],
)
def test_a_comment_given_beside_a_sheet_joins_what_stands_and_once_only(had, on_sheet, marks) -> None:
    *_, new = new_ones(had, on_sheet, [REMARK])
    assert (new.decision.marks, new.decision.comment, new.source) == (marks, "Show the joint.", TYPED)
    assert new_ones([*had, *map(said, on_sheet), new], on_sheet, [REMARK]) == ()


def test_a_comment_typed_alone_leaves_the_mark_that_was_typed() -> None:
    """A later comment takes the place of an earlier one; the same comment once more is nothing new."""
    first = said(mark(1, "method shown", "Show the joint."), TYPED)
    later = mark(None, comment="Measure twice.")
    assert new_ones([said(ONE, TYPED)], [], [REMARK]) == (first,)
    assert new_ones([said(ONE, TYPED), first], [], [REMARK]) == ()
    assert new_ones([first], [], [later]) == (said(mark(1, "method shown", "Measure twice."), TYPED),)
    assert new_ones([first], [], [NONE]) == (said(NONE, TYPED),)


def test_a_comment_does_not_bring_back_a_mark_that_no_longer_stands() -> None:
    """It was decided on another answer, or on the attempt before this one."""
    assert added([said(ONE, TYPED)], [], [REMARK], standing=[], by="J. Marsh", source=SHEET) == (said(REMARK, TYPED),)
    *_, new = added([said(ONE)], [ONE], [REMARK], standing=[], by="J. Marsh", source=SHEET)
    assert new == said(REMARK, TYPED)


def test_comments_join_in_their_order_and_each_once() -> None:
    joined = one_a_part([mark(1, "method shown", "Well set out."), REMARK, REMARK])
    assert joined == {("a paper", "1a"): mark(1, "method shown", "Well set out. Show the joint.")}


def test_what_differs_is_told_with_what_stands() -> None:
    second = Decision(code="a paper", label="1a", marks=2, reason="right now", attempt=2)
    assert differing([ONE], [NONE]) == ((ONE, NONE),)
    assert differing([ONE], [ONE, second]) == ()  # decided on the first attempt, and stands there
    assert differing([ONE], []) == ()  # lapsed: that is told otherwise
