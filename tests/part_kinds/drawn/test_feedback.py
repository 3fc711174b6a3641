"""A drawing fed back: its points, those that the assessor missed marked; the ticks in the cell are not shown."""

from __future__ import annotations

import pytest

from courseware.feedback.feedback_text import HERE, PLAIN, STANDS
from courseware.part_kinds.drawn.feedback import KIND

DRAWN = {"name": "sketch", "kind": "drawn", "ask": "Draw it.", "marks": 3, "points": ["Bond", "Gauge", "Ends"]}
WORDS = {"name": "why", "kind": "words", "ask": "Why?", "marks": 2, "points": ["One", "Two"]}


@pytest.mark.parametrize(
    ("ticks", "signs"),
    [
        ("yny", [STANDS, HERE, STANDS]),
        ("none", [HERE, HERE, HERE]),
        ("", [PLAIN, PLAIN, PLAIN]),  # nobody has ticked yet
        ("yn", [PLAIN, PLAIN, PLAIN]),  # cannot be read: not guessed
    ],
)
def test_points_have_the_assessors_ticks(on_paper, marked, ticks: str, signs) -> None:
    lead, lines = KIND.lines(marked(on_paper(DRAWN, bricks=4), "partly", 1, written=ticks))
    assert lead == "What the drawing is to show:"
    assert [line.say for line in lines] == ["Bond", "Gauge", "Ends"]
    assert [line.sign for line in lines] == signs
    assert [line.word for line in lines] == ["look at this again" if sign == HERE else "" for sign in signs]


def test_the_ticks_are_not_what_the_learner_wrote(on_paper, marked) -> None:
    assert KIND.written(marked(on_paper(DRAWN, bricks=4), "partly", written="yny")) == ""


@pytest.mark.parametrize(("part", "squares"), [(DRAWN, True), (WORDS, False)])
def test_a_drawing_is_corrected_on_squares(on_paper, marked, part, squares: bool) -> None:
    assert KIND.squares(marked(on_paper(part, bricks=4), "wrong")) is squares


def test_what_is_said(on_paper, marked) -> None:
    on = on_paper(DRAWN, bricks=4)
    assert KIND.sentences(marked(on, "blank")) == ("Nothing is drawn here.",)
    assert KIND.sentences(marked(on, "partly")) == ("Some of what is looked for is there.",)


def test_a_few_words_are_not_called_a_drawing(on_paper, marked) -> None:
    on = on_paper(WORDS, bricks=4)
    lead, lines = KIND.lines(marked(on, "partly", 1, written="yn"))
    assert (lead, [line.sign for line in lines]) == ("What the answer is to say:", [STANDS, HERE])
    assert KIND.sentences(marked(on, "blank")) == ("Nothing is written here.",)
