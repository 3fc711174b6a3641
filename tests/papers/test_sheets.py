"""Finished sheets: a learner's has no field that an answer could sit in; what follows from their fields."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest

from courseware.banks.own_picture import OwnPicture
from courseware.papers import sheets
from courseware.papers.sheets import AskedExercise, AskedPart, DrawingCall, KeyAnswer, KeyExercise
from courseware.trade import UK_METRIC


def test_no_field_of_a_paper_is_called_an_answer() -> None:
    for model in (sheets.Paper, sheets.AskedExercise, sheets.AskedPart, sheets.AskedRow):
        assert not {field.name for field in fields(model)} & {
            "answer",
            "answers",
            "slips",
            "working",
            "accepts",
            "right",
        }


DRAWING = DrawingCall(
    kind="pier", figures={}, labels={"length": None}, format=UK_METRIC, alt="Drawing: a pier. Sizes are left blank."
)
PART = AskedPart(label="1a", kind="drawn", ask="Draw it.", marks=2)


def exercise_asked(drawing: DrawingCall | None) -> AskedExercise:
    return AskedExercise(
        number=1, topic="Piers", level=1, setting="", pose="A pier.", brick="", parts=(PART,), marks=2, drawing=drawing
    )


def test_a_key_says_of_a_drawing_that_it_is_filled_in() -> None:
    assert "asked for shown in" in DRAWING.alt_filled
    assert "blank" not in DRAWING.alt_filled


@pytest.mark.parametrize(
    ("drawing", "in_place"), [(None, False), (DRAWING, False), (replace(DRAWING, to_draw_in=True), True)]
)
def test_a_drawing_to_draw_in_takes_the_place_of_a_room(drawing, in_place) -> None:
    assert exercise_asked(drawing).drawn_in_place is in_place


def test_a_keys_parts_go_with_their_answers() -> None:
    answer = KeyAnswer(label="1a", answer="")
    keyed = KeyExercise(asked=exercise_asked(None), answers=((answer,),))
    assert keyed.by_part == ((PART, (answer,)),)
    with pytest.raises(ValueError, match="shorter"):
        assert replace(keyed, answers=()).by_part


def test_an_authors_own_drawing_has_nothing_to_fill_in_on_a_key() -> None:
    own = replace(DRAWING, own=OwnPicture(file="gate.svg", says="a gate", marks=()))
    assert own.alt_filled == own.alt
