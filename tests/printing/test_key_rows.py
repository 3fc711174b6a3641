"""The table of a key: slips beside the working, notes where there is room, the drawing beside the first rows."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.papers.sheets import KeyAnswer, KeyLine, KeySlip
from courseware.printing.key_rows import KEY_WIDE, first_line, key_drawing, key_rows

SLIP = KeySlip(figure="900 mm", says="The joint was left out", earns=1)


def answer(lines: int, slips: int, notes: int) -> KeyAnswer:
    return KeyAnswer(
        label="1a", answer="910 mm", working=tuple(KeyLine(say=f"Line {n}", figure="910 mm") for n in range(lines)),
        slips=(SLIP,) * slips, notes=tuple(f"Note {n}" for n in range(notes)),
    )  # fmt: skip


def test_a_long_question_is_cut_between_words_on_its_key() -> None:
    assert first_line("short and whole") == "short and whole"
    assert first_line("seven words that go on and on", 20) == "seven words that …"


@pytest.mark.parametrize(
    ("lines", "slips", "notes", "high"),
    [(2, 2, 0, 2), (1, 3, 0, 3), (1, 1, 2, 2), (1, 0, 3, 2), (0, 0, 4, 2), (0, 0, 5, 3), (3, 0, 3, 3)],
)
def test_notes_fill_the_shorter_side(lines: int, slips: int, notes: int, high: int) -> None:
    assert len(key_rows(answer(lines, slips, notes))) == high


@pytest.mark.parametrize(
    ("points", "left", "right"),
    [
        (1, ["1. Note 0"], [None]),
        (2, ["1. Note 0"], ["2. Note 1"]),
        (3, ["1. Note 0", "2. Note 1"], ["3. Note 2", None]),
    ],
)
def test_points_are_numbered_in_the_order_in_which_an_assessor_types_y_or_n(points, left, right) -> None:
    rows = key_rows(replace(answer(0, 0, points), by_eye=True))
    assert [[half and half.says for half in side] for side in zip(*rows, strict=True)] == [left, right]


def test_slips_stand_beside_the_working_and_nothing_is_lost(printed) -> None:
    for topic in ("opening_sizes", "safe_cutting"):
        for exercise in printed(topic).key.exercises:
            for one in (one for answers in exercise.answers for one in answers):
                left, right = zip(*key_rows(one), strict=True) if key_rows(one) else ((), ())
                figures = [row.figure for row in left if row and (row.figure or row.earns != "")]
                assert figures == [
                    line.figure for line in (*one.working, *one.accepts) if line.figure or line.earns != ""
                ]
                told = [row.says for row in (*left, *right) if row]
                expected = [
                    *(line.say for line in one.working), *(f"Accept: {other.says}" for other in one.accepts),
                    *(slip.says for slip in one.slips),
                    *(f"{n}. {note}" if one.by_eye else note for n, note in enumerate(one.notes, 1)),
                ]  # fmt: skip
                assert sorted(told) == sorted(expected)
                slips = [row.says for row in right if row][: len(one.slips)]
                assert slips == [slip.says for slip in one.slips]


def test_a_key_repeats_a_drawing_only_where_something_is_filled_in(printed) -> None:
    exercises = [one for topic in ("opening_sizes", "decorative_courses") for one in printed(topic).key.exercises]
    for one in exercises:
        filled = one.drawing is not None and one.drawing.labels != one.asked.drawing.labels
        assert (key_drawing(one).picture is not None) is (filled or one.asked.drawn_in_place)
    assert any(key_drawing(one).picture for one in exercises)
    blank = next(one for one in exercises if one.drawing and key_drawing(one).picture)
    assert key_drawing(replace(blank, drawing=blank.asked.drawing)).picture is None


def test_the_table_beside_a_drawing_leaves_it_room(printed) -> None:
    for one in printed("opening_sizes").key.exercises:
        drawn = key_drawing(one)
        if drawn.picture and drawn.beside:
            assert drawn.wide + drawn.picture.width < KEY_WIDE
            assert drawn.beside <= len(one.asked.parts)
