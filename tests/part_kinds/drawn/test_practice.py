"""A drawing on the practice page: its points without their marks, for the learner to tick; lines where words are asked."""

from __future__ import annotations

import pytest

from courseware.part_kinds.drawn.practice import KIND


@pytest.mark.parametrize(("keys", "lines"), [({"kind": "drawn"}, 0), ({"kind": "words", "lines": 4}, 4)])
def test_points_stand_as_the_bank_says_them(on_paper, keys, lines: int) -> None:
    on = on_paper({"name": "sketch", "ask": "Do it.", "marks": 4, "points": ["In bond", "To gauge"], **keys}, bricks=4)
    found = KIND.data(on.asked, on.key, on.solved, on.entries, {})
    assert found == {"lines": lines, "points": ["In bond", "To gauge"]}
