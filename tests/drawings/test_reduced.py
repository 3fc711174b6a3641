"""A drawing made smaller keeps its shape, and words that can be read."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Label, Picture, Stroke
from courseware.drawings.reduced import reduced

DRAWN = Picture(
    width=100, height=50, alt="",
    marks=(Stroke(outlines=(((0, 0), (100, 50)),), dash=(2, 1)), Label(at=(50, 25), text="910", size=3.0)),
)  # fmt: skip


def test_it_keeps_its_shape() -> None:
    small = reduced(DRAWN, (50, 50))
    assert (small.width, small.height) == (50, 25)
    assert small.marks[0] == Stroke(outlines=(((0, 0), (50, 25)),), dash=(1, 0.5))


def test_it_keeps_words_that_can_be_read() -> None:
    (_, small), (_, less) = reduced(DRAWN, (50, 50)).marks, reduced(DRAWN, (90, 50)).marks
    assert (small.size, less.size) == (2.1, pytest.approx(2.7))


def test_it_is_left_alone_where_it_fits() -> None:
    assert reduced(DRAWN, (100, 50)) == DRAWN
