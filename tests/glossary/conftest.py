"""What the tests of pictures share: what is dark in one, and how large."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import pytest

from courseware.drawings.dimension import Marks
from courseware.drawings.lines import GROUND
from courseware.drawings.picture import Point, Stroke

DARK = 0.3


@pytest.fixture(scope="session")
def named() -> Callable[[Marks], list[tuple[Point, ...]]]:
    """The outlines of what is dark."""
    return lambda marks: [
        outline for mark in marks if isinstance(mark, Stroke) and mark.fill == DARK for outline in mark.outlines
    ]


@pytest.fixture(scope="session")
def size() -> Callable[[Iterable[Point]], tuple[float, float]]:
    """How wide and high points lie apart, in mm of paper."""

    def measured(points: Iterable[Point]) -> tuple[float, float]:
        across, down = zip(*points, strict=True)
        return max(across) - min(across), max(down) - min(down)

    return measured


@pytest.fixture(scope="session")
def heavy() -> Callable[[Marks], list[tuple[Point, ...]]]:
    """The lines that are drawn heavy."""
    return lambda marks: [
        outline
        for mark in marks
        if isinstance(mark, Stroke) and not mark.closed and mark.weight == GROUND.weight
        for outline in mark.outlines
    ]
