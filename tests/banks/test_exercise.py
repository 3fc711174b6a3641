"""An exercise as it stands once read: labels of its parts, its marks, its figures and what has an answer of its own."""

from __future__ import annotations

import pytest

from courseware.banks.exercise import part_label

ROW = {"say": "How many?", "marks": 2, "answer": "bricks", "working": [{"say": "So", "value": "bricks"}]}
TABLE = {"name": "rows", "kind": "table", "ask": "Fill in.", "rows": [{**ROW, "name": "one"}, {**ROW, "name": "two"}]}


@pytest.mark.parametrize(
    ("place", "row", "label"), [(0, None, "a"), (7, None, "h"), (1, 0, "b(i)"), (1, 3, "b(iv)"), (0, 11, "a(xii)")]
)
def test_parts_are_lettered_and_rows_numbered(place: int, row: int | None, label: str) -> None:
    assert part_label(place, row) == label


def test_as_many_labels_as_parts_and_rows_can_be() -> None:
    """Eight parts, twelve rows: each with a label of its own."""
    assert len({part_label(place) for place in range(8)}) == 8
    assert len({part_label(0, row) for row in range(12)}) == 12


def test_the_marks_of_an_exercise_are_those_of_its_parts_and_rows(exercise, number) -> None:
    made = exercise(parts=[number(marks=3), TABLE])
    assert made.marks == 7


def test_figures_and_entries_are_found_in_order_with_their_place(exercise, number) -> None:
    sketch = {"name": "sketch", "kind": "drawn", "ask": "Draw it.", "points": ["a"], "marks": 1}
    made = exercise(parts=[number(), TABLE, sketch])
    assert [part.name for part in made.numbers] == ["length", "one", "two"]
    assert [(place, part.name) for place, part in made.entries] == [
        (0, "length"),
        (1, "one"),
        (1, "two"),
        (2, "sketch"),
    ]
