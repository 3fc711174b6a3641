"""The bank format key by key: texts that may be alone or in a list, names, what must be there."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from courseware.banks.shapes import ExerciseShape, LineShape, NoteShape, PartShape, TopicShape

PART = {"name": "length", "ask": "How long?"}
EXERCISE = {"name": "pier", "level": "1", "given": {}, "pose": "A pier.", "parts": [PART]}


def fits(shape, data) -> bool:
    try:
        shape.model_validate(data)
    except ValidationError:
        return False
    return True


@pytest.mark.parametrize(
    ("written", "texts"), [("A yard.", ["A yard."]), (["A yard.", "A farm."], ["A yard.", "A farm."]), ([], [])]
)
def test_a_setting_is_a_text_or_several(written, texts) -> None:
    assert ExerciseShape.model_validate({**EXERCISE, "setting": written}).setting == texts


@pytest.mark.parametrize(
    ("keys", "right"),
    [
        ({"setting": None}, False), ({"setting": [["A yard."]]}, False), ({"drawing": "pier"}, True), ({"drawing": {"kind": "pier"}}, True),
        ({"drawing": ["pier"]}, False), ({"format": None}, False), ({"given": {"bricks": "2 to 9"}}, True), ({"given": {"bricks": ["2", "3"]}}, True),
        ({"given": {"bricks": {"from": "2"}}}, False), ({"given": {"Bricks": "2"}}, False), ({"parts": []}, False), ({"level": "one"}, False), ({"colour": "red"}, False),
    ],
)  # fmt: skip
def test_what_an_exercise_may_hold(keys, right: bool) -> None:
    assert fits(ExerciseShape, {**EXERCISE, **keys}) is right


@pytest.mark.parametrize(
    ("name", "right"),
    [("a", True), ("a" * 40, True), ("a" * 41, False), ("wall_2", True), ("wall-2", False), ("2_walls", False), ("Wall", False), ("", False), ("wänd", False), ("a\n", False)],
)  # fmt: skip
def test_a_parts_name(name: str, right: bool) -> None:
    assert fits(PartShape, {**PART, "name": name}) is right


@pytest.mark.parametrize(
    ("name", "right"), [("a" * 60, True), ("a" * 61, False), ("wall-2", True), ("wall_2", False), ("Wall", False)]
)
def test_an_exercises_name(name: str, right: bool) -> None:
    assert fits(ExerciseShape, {**EXERCISE, "name": name}) is right


def test_a_topic_needs_its_title_its_aim_and_an_exercise() -> None:
    whole = {"topic": "Piers", "aim": "Work out", "exercises": [EXERCISE]}
    assert fits(TopicShape, whole)
    for key in whole:
        assert not fits(TopicShape, {name: value for name, value in whole.items() if name != key})
    assert not fits(TopicShape, {**whole, "exercises": []})


def test_a_note_needs_a_line_and_a_line_its_words() -> None:
    assert fits(NoteShape, {"name": "dust", "title": "Dust", "lines": ["Wear a mask."]})
    assert not fits(NoteShape, {"name": "dust", "title": "Dust", "lines": []})
    assert not fits(LineShape, {"value": "1"})


@pytest.mark.parametrize("shape", [TopicShape, ExerciseShape, PartShape, LineShape, NoteShape])
def test_every_key_says_what_is_expected_of_it(shape) -> None:
    assert all(field.description for field in shape.model_fields.values())
