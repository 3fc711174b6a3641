"""A drawing, or a few words, on a paper: nothing to give away in the sitting, room on the paper, points on the key."""

from __future__ import annotations

import pytest

from courseware.part_kinds.drawn.paper import points_of

DRAWN = {"name": "sketch", "kind": "drawn", "ask": "Draw {{ bricks }} bricks.", "marks": 4,
         "points": ["Joints [10 mm] shown", "In bond"], "grid": "120 by 60 mm"}  # fmt: skip
WORDS = {"name": "why", "kind": "words", "ask": "Why?", "marks": 2, "points": ["One", "Two"], "lines": 4}


@pytest.mark.parametrize("part", [DRAWN, WORDS])
def test_its_entry_holds_no_answer(on_paper, part) -> None:
    [entry] = on_paper(part, bricks=4).entries
    assert (entry.kind, entry.answer, entry.slips, entry.shown) == ("drawn", "", (), ())


@pytest.mark.parametrize(
    ("part", "size", "lines", "note"), [(DRAWN, (120, 60), 0, ""), (WORDS, (160, 50), 4, "in a few words")]
)
def test_a_paper_has_its_room_and_none_of_its_points(on_paper, part, size, lines: int, note: str) -> None:
    asked = on_paper(part, bricks=4).asked
    assert (asked.size, asked.lines, asked.note, asked.options) == (size, lines, note, ())
    assert not any(point in str(asked) for point in part["points"])


def test_a_key_has_each_point_with_its_marks(on_paper) -> None:
    [key] = on_paper(DRAWN, bricks=4).key
    assert key.by_eye
    assert key.answer == "Marked by eye against the points"
    assert key.notes == ("Joints [10 mm] shown [2]", "In bond [2]")
    assert points_of(key) == ["Joints [10 mm] shown", "In bond"]
