"""Room to draw in or to write on, at its size."""

from __future__ import annotations

from itertools import pairwise

import pytest

from courseware.papers.sheets import AskedPart
from courseware.part_kinds.drawn.printing import KIND


def room(**more: object):
    [(name, picture)] = KIND.rooms(
        AskedPart(label="2b", kind="drawn", ask="Draw it.", marks=3, **more), 3, False
    ).items()
    assert name == "grid-2b"
    return picture


@pytest.mark.parametrize("size", [(160, 55), (120, 60), (5, 5)])
def test_squares_are_as_large_as_the_part_asks(size) -> None:
    picture = room(size=size)
    assert (picture.width, picture.height) == size
    [rules] = picture.marks
    assert len(rules.outlines) == size[0] // 5 + 1 + size[1] // 5 + 1  # a rule every 5 mm, both edges too


@pytest.mark.parametrize("lines", [1, 3, 12])
def test_words_have_as_many_lines_as_the_part_asks(lines: int) -> None:
    [rules] = room(lines=lines).marks
    assert len(rules.outlines) == lines
    heights = [start[1] for start, _ in rules.outlines]
    assert {round(b - a, 6) for a, b in pairwise(heights)} <= {9.0}


def test_it_does_not_share_its_row_with_another() -> None:
    assert not KIND.may_halve
