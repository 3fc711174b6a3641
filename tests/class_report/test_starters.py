"""What is taught first, and the question that its ten minutes start with."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.class_report.figures import class_figures
from courseware.class_report.misconceptions import Misconception
from courseware.class_report.starters import Starter, seen_in, starter_block, starter_for, teach_first
from courseware.drawings.picture import Label
from tests.class_report.conftest import WALL

WIDTH = Starter("A panel is 7 bricks wide.", "How wide must the opening be?", "1585 mm", WALL)
HEIGHT = Starter("A panel is 9 courses high.", "How high must the opening be?", "685 mm")
JOINT = "the extra joint was left out"


def wrong(seen: str, perhaps: str = "", words: str = JOINT) -> Misconception:
    """Seen by the papers and in the parts of each word: `A:1a B:2b`."""
    pairs = [tuple((one.split(":")[0], one.split(":")[1]) for one in text.split()) for text in (seen, perhaps)]
    return Misconception(words=words, says="An opening has a joint at both ends.", seen=pairs[0], perhaps=pairs[1])


@pytest.fixture
def of_twelve(class_of):
    figures = class_figures(*class_of(12))
    return lambda *found: replace(figures, misconceptions=found)


def test_a_starter_is_of_the_part_where_it_was_seen_most_and_has_one() -> None:
    one = wrong("A:1a B:1a A:1b C:1c")
    assert starter_for(one, {"1a": WIDTH, "1b": HEIGHT}) == WIDTH
    assert starter_for(one, {"1c": HEIGHT}) == HEIGHT
    assert starter_for(one, {"9a": HEIGHT}) is None


def test_what_most_papers_show_is_taught_first_with_its_rule_and_its_starter(of_twelve) -> None:
    first, starter = teach_first(of_twelve(wrong("A:1a B:1a"), wrong("A:2a B:2a")), {"1a": WIDTH}, (60, 40), 900)
    assert first.heading == f"Teach first: {JOINT}"
    assert first.text == ("Seen 2 times, on 2 of 12 papers, in 1a.", "An opening has a joint at both ends.")
    assert starter.heading == "Ten-minute starter"
    assert starter.text == ("A panel is 7 bricks wide. How wide must the opening be?", "Answer, for the tutor: 1585 mm")
    assert starter.beside
    assert starter.picture.width <= 60
    assert starter.picture.height <= 40
    assert "2400" in [mark.text for mark in starter.picture.marks if isinstance(mark, Label)]


def test_without_a_starter_that_is_said(of_twelve) -> None:
    _, told = teach_first(of_twelve(wrong("A:1a B:1a")), {}, (60, 40), 900)
    assert told.text == ("No fresh question was made for it: set the same question with other sizes.",)


def test_what_one_paper_alone_shows_is_not_taught_to_the_class(of_twelve) -> None:
    (told,) = teach_first(of_twelve(wrong("A:1a A:2a")), {"1a": WIDTH}, (60, 40), 900)
    assert told.text == ("No slip was seen on more than one paper: each learner's own feedback deals with it.",)


def test_a_starter_whose_question_has_no_drawing_has_none() -> None:
    block = starter_block("S", HEIGHT, (60, 40))
    assert (block.picture, block.beside) == (None, False)


def test_what_is_said_stands_before_the_question() -> None:
    block = starter_block("Then", HEIGHT, (60, 40), ("The joint was left out.",))
    assert block.text[0] == "The joint was left out."
    assert block.text[1].startswith(HEIGHT.pose)


def test_a_long_starter_is_cut_where_there_is_little_room(of_twelve) -> None:
    long = {"1a": Starter("wall " * 100, "Which? " * 100, "1")}
    _, starter = teach_first(of_twelve(wrong("A:1a B:1a")), long, (60, 40), 60)
    assert len(starter.text[0]) < 140
    assert starter.text[0].count("…") == 2


@pytest.mark.parametrize(("one", "says"), [
    (wrong("A:1a"), "Seen once, on 1 of 7 papers, in 1a."),
    (wrong("A:1a A:2b B:2b"), "Seen 3 times, on 2 of 7 papers, in 2b and 1a."),
    (wrong("A:1a B:1a", "C:1a"),
     "Seen 2 times, on 2 of 7 papers, in 1a; perhaps 1 time more, where another slip gives the same figure."),
    (wrong("", "A:1a B:1a"), "Perhaps 2 times, in 1a: another slip gives the same figure."),
    (wrong(" ".join(f"A:{n}a" for n in range(1, 10))), "Seen 9 times, on 1 of 7 papers, in 1a, 2a, 3a, 4a, 5a, 6a and 3 more."),
])  # fmt: skip
def test_how_often_by_how_many_and_where(one: Misconception, says: str) -> None:
    assert seen_in(one, 7) == says
