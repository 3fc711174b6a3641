"""An assessor's ticks for the points of a drawing: how they are read, what they earn."""

from __future__ import annotations

import pytest

from courseware.marking.part_kind import NotRead
from courseware.part_kinds.drawn.marking import mark_ticks, read_ticks


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
