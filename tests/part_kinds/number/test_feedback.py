"""A figure fed back: which line of the working it left, and what is said of it. Expected lines are decided by hand."""

from __future__ import annotations

import pytest

from courseware.feedback.feedback_text import HERE, PLAIN, STANDS
from courseware.part_kinds.number.feedback import KIND, line_after, where_it_left

LINES = [
    {"say": "A brick and its joint", "value": "module"},
    {"say": "So many", "value": "bricks * module", "earns": "method"},
    {"say": "One joint fewer", "value": "bricks * module - joint", "earns": "accuracy"},
]
SLIPS = [
    {"value": "bricks * module", "says": "The last joint was kept", "earns": 1},  # line 2 has it
    {"value": "bricks * 215", "says": "Bricks without joints"},  # no line has it, nothing is earned
    {"value": "bricks * 100", "says": "Read off the wrong gauge", "earns": 1},  # no line has it, a mark is earned
    {"value": "module", "says": "One brick alone"},  # line 1 has it
    {"value": "bricks * module - joint", "says": "As the answer, in another order"},  # the last line has it
]


@pytest.fixture
def pier(on_paper, number):
    return on_paper(number(unit="mm", marks=2, working=LINES, slips=SLIPS), bricks=4)


@pytest.mark.parametrize(
    ("slip", "line", "sure", "says"),
    [
        (0, 2, True, "first wrong here"),
        (1, 1, False, "wrong here at the latest"),  # the first line that earns
        (2, 0, False, "look from here on"),
        (3, 1, True, "first wrong here"),
        (4, 2, True, "first wrong here"),  # not beyond the last
    ],
)
def test_the_line_where_a_slip_leaves_the_working(pier, slip: int, line: int, sure: bool, says: str) -> None:
    assert where_it_left(pier.solved, slip) == (line, sure, says)


def test_a_line_in_another_unit_is_not_the_slips_own(on_paper, number) -> None:
    lines = [{**LINES[1], "unit": "m"}, LINES[2]]
    on = on_paper(number(unit="mm", marks=2, working=lines, slips=SLIPS[:1]), bricks=4)
    assert where_it_left(on.solved, 0) == (0, False, "look from here on")


def test_a_figure_that_stands_twice_was_left_after_the_last_of_them(on_paper, number) -> None:
    lines = [LINES[1], {"say": "As many joints", "value": "module * bricks"}, LINES[2]]
    on = on_paper(number(unit="mm", marks=2, working=lines, slips=SLIPS[:1]), bricks=4)
    assert where_it_left(on.solved, 0) == (2, True, "first wrong here")


@pytest.mark.parametrize(("marks", "line"), [(0, 1), (1, 2), (2, 2)])
def test_the_line_after_those_that_earned(pier, marks: int, line: int) -> None:
    assert line_after(pier.solved.part, marks) == line


@pytest.mark.parametrize(
    ("how", "marks", "slips", "signs", "word"),
    [
        ("slip", 1, (1,), [STANDS, STANDS, HERE], "first wrong here"),
        ("slip", 0, (2,), [PLAIN, HERE], "wrong here at the latest"),
        ("family", 0, (1, 2), [PLAIN, HERE], "wrong here at the latest"),  # the earliest of them
        ("unit", 1, (), [STANDS, STANDS, HERE], "all but the unit stands"),
        ("rounding", 1, (), [STANDS, STANDS, HERE], "all but the rounding stands"),
        ("tens", 1, (), [STANDS, STANDS, HERE], "the digits stand; look at the point"),
        ("swapped", 1, (), [STANDS, STANDS, HERE], "look at the digits as written"),
        ("decided", 1, (), [STANDS, STANDS, HERE], "first wrong here"),  # by the assessor's mark
        ("unknown", 0, (), [PLAIN, PLAIN, PLAIN], ""),
        ("blank", 0, (), [PLAIN], ""),
        ("withheld", 0, (), [PLAIN], ""),
    ],
)
def test_the_lines_shown_and_their_signs(pier, marked, how, marks, slips, signs, word) -> None:
    _, lines = KIND.lines(marked(pier, how, marks, slips=slips))
    assert [line.sign for line in lines] == signs
    assert lines[-1].word == word


def test_a_part_to_start_from_shows_its_first_line_and_one_line_alone_keeps_its_figure(
    pier, on_paper, number, marked
) -> None:
    lead, [first] = KIND.lines(marked(pier, "blank"))
    assert (lead, first.say, first.figure) == ("A first line to start from:", "A brick and its joint", "225 mm")
    _, [only] = KIND.lines(marked(on_paper(number(), bricks=4), "blank"))
    assert (only.say, only.figure) == ("Work it out", "")


@pytest.mark.parametrize(
    ("how", "says"),
    [
        ("unit", ["The figure is right. The unit beside it is another one.", "It is asked for in mm."]),
        ("rounding", ["It is asked for to 2 decimal places."]),
        ("blank", ["Nothing is written here."]),
        ("family", ["More than one slip gives this figure."]),
        ("slip", []),  # its own words say it
    ],
)
def test_what_is_said_is_about_the_task(on_paper, number, marked, how, says) -> None:
    part = marked(on_paper(number(unit="mm", round=2, answer="bricks / 3"), bricks=4), how)
    told = " ".join(KIND.sentences(part))
    assert all(words in told for words in says)
    assert bool(told) is bool(says)
