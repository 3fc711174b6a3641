"""A few words in a bank: one to twelve lines to write on, three unless it says so, marked by points as a drawing is."""

from __future__ import annotations

import pytest


def words(**keys: object) -> dict[str, object]:
    return {"name": "why", "kind": "words", "ask": "Why?", "points": ["One", "Two"], "marks": 2, **keys}


@pytest.mark.parametrize(
    ("lines", "told"),
    [(0, ["0 lines; expected 1 to 12"]), (1, []), (12, []), (13, ["13 lines; expected 1 to 12"])],
)
def test_there_are_one_to_twelve_lines(faults, lines: int, told: list[str]) -> None:
    assert faults(words(lines=lines)) == told


@pytest.mark.parametrize(("keys", "lines"), [({}, 3), ({"lines": 4}, 4)])
def test_lines_are_printed_as_asked_and_three_otherwise(exercise, keys, lines: int) -> None:
    [part] = exercise(parts=[words(**keys)]).parts
    assert (part.lines, part.kind, part.by_eye) == (lines, "drawn", True)
    assert part.leaves_sketch_open is False  # nothing is drawn


def test_it_has_no_space_to_draw_in(faults) -> None:
    assert faults(words(grid="120 by 60 mm")) == ["a part of kind words has no `grid`; expected points, lines"]
