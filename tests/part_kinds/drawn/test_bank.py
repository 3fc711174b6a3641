"""A drawing in a bank: points of equal marks, and a space to draw in of whole squares that a page holds."""

from __future__ import annotations

import pytest

from courseware.banks import solve
from courseware.banks.exercise import SKETCH_SIZE
from courseware.banks.part import Solved


def drawn(points: int = 2, **keys: object) -> dict[str, object]:
    return {"name": "sketch", "kind": "drawn", "ask": "Draw {{ bricks }} bricks.", "marks": points,
            "points": [f"Point {n}" for n in range(points)], **keys}  # fmt: skip


def test_a_drawing_has_nothing_to_work_out_and_is_marked_by_eye(exercise) -> None:
    [solved] = solve(exercise(parts=[drawn()]), {"bricks": 4})
    assert type(solved) is Solved
    assert (solved.part.by_eye, solved.part.lines) == (True, 0)
    assert len(solved.part.wordings) == 3


@pytest.mark.parametrize(("points", "size"), [(1, (160, 40)), (2, (160, 40)), (3, SKETCH_SIZE)])
def test_the_usual_space_is_larger_for_more_than_two_marks(exercise, points: int, size: tuple[int, int]) -> None:
    assert exercise(parts=[drawn(points)]).parts[0].size == size


@pytest.mark.parametrize(
    ("marks", "told"),
    [(2, []), (4, []), (3, ["3 marks for 2 points; expected the same for each point"])],
)
def test_each_point_earns_the_same(faults, marks: int, told: list[str]) -> None:
    assert faults(drawn(2, marks=marks)) == told


@pytest.mark.parametrize(
    ("grid", "size"),
    [
        ("120 by 60 mm", (120, 60)),
        ("24 by 12 squares", (120, 60)),  # of 5 mm
        (" 24  by 12   squares ", (120, 60)),
        ("5 by 5 mm", (5, 5)),
        ("1 by 1 squares", (5, 5)),
        ("160 by 200 mm", (160, 200)),
        ("32 by 40 squares", (160, 200)),
    ],
)
def test_a_space_to_draw_in(exercise, grid: str, size: tuple[int, int]) -> None:
    assert exercise(parts=[drawn(grid=grid)]).parts[0].size == size


@pytest.mark.parametrize(
    "grid", ["165 by 70 mm", "160 by 205 mm", "33 by 12 squares", "121 by 60 mm", "120 by 62 mm", "0 by 5 mm", "large", "12 by 6 cm"]
)  # fmt: skip
def test_a_space_that_no_page_holds_is_told(faults, grid: str) -> None:
    [told] = faults(drawn(grid=grid))
    assert told.startswith(f"`{grid}` is not a size to draw in; expected such as 120 by 60 mm or 24 by 12 squares")


@pytest.mark.parametrize(("keys", "open_"), [({}, True), ({"adds": "the mitres"}, False)])
def test_a_sketch_beside_a_drawing_says_what_it_adds(exercise, keys, open_: bool) -> None:
    assert exercise(parts=[drawn(**keys)]).parts[0].leaves_sketch_open is open_
