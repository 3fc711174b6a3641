"""Levels off the work: a triangle whose point is on the line, over it or under it, and the name beside it."""

import pytest

from courseware.drawings.level_marks import NAMED, level
from courseware.drawings.picture import Label, Stroke


def parts(*args, **kind):
    line, triangle, name = level(*args, **kind)
    assert isinstance(line, Stroke)
    assert isinstance(triangle, Stroke)
    assert isinstance(name, Label)
    return line.outlines[0], triangle, name


@pytest.mark.parametrize("below", [False, True])
def test_the_triangle_stands_on_the_line_and_the_name_on_the_same_side(below) -> None:
    _, triangle, name = parts((50.0, 20.0), "top of course 4", below=below)
    tip, *base = triangle.outlines[0]
    assert tip[1] == 20.0
    assert all((y > 20.0) is below for _, y in base)
    assert (name.at[1] > 20.0) is below
    assert name.at[0] > max(x for x, _ in base)


def test_the_line_is_off_the_work_on_either_side() -> None:
    (start, end), _, _ = parts((50.0, 20.0), "eye line")
    assert (start[0], end[0]) == (50.0 - NAMED, 49.0)
    (start, end), _, _ = parts((50.0, 20.0), "eye line", -17.0)
    assert (start[0], end[0]) == (51.0, 67.0)


def test_a_datum_is_filled_and_any_other_level_is_open() -> None:
    assert parts((0.0, 0.0), "site datum")[1].fill == 0.0
    assert parts((0.0, 0.0), "underside of sill")[1].fill == 1.0


@pytest.mark.parametrize("reach", [10.0, NAMED, -10.0])
@pytest.mark.parametrize("says", ["datum", "underside of brick above", "underside of the bearing of the lintel"])
def test_no_name_stands_over_the_work(says: str, reach: float) -> None:
    (start, end), _, name = parts((50.0, 20.0), says, reach)
    assert start[0] < name.at[0]
    assert reach < 0 or name.at[0] + name.width <= 50.0 + 1e-9
    assert (end[0] if reach > 0 else start[0]) == (49.0 if reach > 0 else 51.0)
