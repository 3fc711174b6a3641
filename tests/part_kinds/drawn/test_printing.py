"""Room to draw in or to write on, at its size."""

from __future__ import annotations

from itertools import pairwise
from math import inf

import pytest

from courseware.papers.sheets import AskedPart
from courseware.part_kinds.drawn.printing import KIND
from courseware.printing.page_format import A4


def room(**more: object):
    part = AskedPart(label="2b", kind="drawn", ask="Draw it.", marks=3, **more)
    [(name, picture)] = KIND.rooms(part, 3, A4.wide, A4).items()
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


@pytest.mark.parametrize(("wide", "fits"), [(159.9, False), (160.0, True), (160.1, True)])
def test_it_stands_nowhere_narrower_than_itself(wide: float, fits: bool) -> None:
    part = AskedPart(label="2b", kind="drawn", ask="Draw it.", marks=3, size=(160, 55))
    assert (KIND.height(part, wide, A4) < inf) is fits
