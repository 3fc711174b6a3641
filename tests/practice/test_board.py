"""What stands on the pages for the whiteboard, and in which order."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.banks import Space
from courseware.files.bank_files import find_banks, read_banks
from courseware.papers.compose import CAUTIONS, Sources, compose_exercise
from courseware.papers.deal import issue_exercise
from courseware.papers.invented import invented_site
from courseware.papers.shares import for_practice
from courseware.papers.sheets import AskedExercise, AskedPart, KeyAnswer, KeyExercise, KeyLine, KeySlip, SafetyNote
from courseware.practice.board import Lesson, Line, Screen, SlipOfClass, compose_board, height

TAPE = SafetyNote(title="Tapes", lines=("Let a tape run back slowly.",))


def lesson(answer: KeyAnswer, number: int = 1, options=(), seen=None, **more: object) -> Lesson:
    part = AskedPart(label=f"{number}a", kind="number", ask="How wide?", marks=2, options=options)
    asked = AskedExercise(
        number=number, topic="Openings", level=1, setting="A wall is built.", pose="It is 4 bricks wide.", brick="",
        parts=(part,), marks=2, safety=(TAPE,), **more,
    )  # fmt: skip
    return Lesson(key=KeyExercise(asked=asked, answers=((answer,),)), exercise="opening-wide", parts=(0,), seen=seen or {})  # fmt: skip


def screens(*lessons: Lesson) -> tuple[Screen, ...]:
    return compose_board("Whiteboard: Openings", "Two questions.", lessons).screens


ANSWER = KeyAnswer(
    label="1a",
    answer="910 mm",
    working=(KeyLine(say="Four bricks", figure="900 mm"), KeyLine(say="A joint more", figure="910 mm")),
    slips=(
        KeySlip(figure="900 mm", says="The joint was left out", earns=1),
        KeySlip(figure="890 mm", says="Treated as a pier", earns=0),
    ),
)


def test_a_question_comes_first_then_its_working_a_line_at_a_time_then_the_slips() -> None:
    title, question, care, asks, one, two, answer, slips = screens(lesson(ANSWER))
    assert [line.says for line in title.lines] == ["Two questions.", *CAUTIONS]
    assert [line.says for line in question.lines] == ["A wall is built.", "It is 4 bricks wide."]
    assert (care.heading, care.lines) == ("Take care: Tapes", (Line(says="Let a tape run back slowly."),))
    assert [line.says for line in asks.lines] == ["How wide?"]
    assert [line.figure for line in one.lines] == ["", "900 mm"]
    assert two.lines == (*one.lines, Line(says="A joint more", figure="910 mm"))
    assert answer.lines == (*two.lines, Line(says="Answer", figure="910 mm", strong=True))
    assert [screen.grows for screen in (asks, one, two, answer, slips)] == [False, True, True, True, False]
    assert [(line.says, line.figure) for line in slips.lines] == [
        ("The joint was left out", "900 mm"), ("Treated as a pier", "890 mm"),
    ]  # fmt: skip


def test_a_bookmark_stands_where_something_begins() -> None:
    assert [(screen.heading, screen.level) for screen in screens(lesson(ANSWER)) if screen.level] == [
        ("Whiteboard: Openings", 1), ("1 Opening wide", 1), ("Part 1a", 2), ("Part 1a: to talk about", 2),
    ]  # fmt: skip


def test_a_safety_note_is_told_once() -> None:
    both = screens(lesson(ANSWER), lesson(ANSWER, 2))
    assert [screen.heading for screen in both].count("Take care: Tapes") == 1


def test_what_the_class_showed_stands_first_with_how_many_papers() -> None:
    """By its place in the bank, so with the fresh question's own figure."""
    seen = {"1a": (SlipOfClass(number=2, says="Treated as a pier of 3 bricks", papers="seen on 5 of 12 papers"),)}
    slips = screens(lesson(ANSWER, seen=seen))[-1]
    assert [(line.says, line.figure) for line in slips.lines] == [
        ("Treated as a pier (seen on 5 of 12 papers)", "890 mm"), ("The joint was left out", "900 mm"),
    ]  # fmt: skip


def test_a_choice_ends_with_the_words_of_what_is_right() -> None:
    options = (("A", "890 mm"), ("B", "910 mm"))
    answer = KeyAnswer(label="1a", answer="B", chosen=("910 mm",), notes=("A: Treated as a pier",))
    seen = {"1a": (SlipOfClass(number=None, says="Treated as a pier", papers="seen on 3 of 7 papers"),)}
    *_, found, talk = screens(lesson(answer, options=options, seen=seen))
    assert found.lines[-1] == Line(letter="B", says="910 mm", strong=True)
    assert [line.says for line in talk.lines] == ["A: Treated as a pier (seen on 3 of 7 papers)"]


def test_an_order_is_shown_a_step_at_a_time() -> None:
    options = (("A", "Point it"), ("B", "Lay it"), ("C", "Set it out"))
    shown = [screen for screen in screens(lesson(KeyAnswer(label="1a", answer="C, B, A"), options=options)) if screen.grows]  # fmt: skip
    assert [[line.says for line in screen.lines[1:]] for screen in shown] == [
        ["Set it out"], ["Set it out", "Lay it"], ["Set it out", "Lay it", "Point it"],
    ]  # fmt: skip


def test_a_drawing_is_judged_by_its_points_and_they_carry_no_marks() -> None:
    points = KeyAnswer(label="1a", answer="Marked by eye", notes=("Joints are drawn [1]", "It is square [1]"), by_eye=True)  # fmt: skip
    assert [line.says for line in screens(lesson(points))[-1].lines[1:]] == ["Joints are drawn", "It is square"]


@pytest.mark.parametrize(("words", "lines"), [("x" * 50, 1), ("x" * 49 + " x", 2), ("x " * 25, 1)])
def test_an_entry_takes_a_line_for_so_many_letters(words: str, lines: int) -> None:
    assert int(height(Line(says=words))) == lines


def test_lines_that_fill_a_screen_go_over_to_the_next_with_the_last_before_them() -> None:
    """A line of 31 letters beside a figure takes one line of type and its gap: seven of them stand below the question."""
    working = tuple(KeyLine(say=f"Line {n}", figure=f"{n} mm") for n in range(1, 11))
    shown = [screen for screen in screens(lesson(KeyAnswer(label="1a", answer="10 mm", working=working))) if screen.grows]  # fmt: skip
    said = [[line.says for line in screen.lines[1:]] for screen in shown]
    assert [lines[-1] for lines in said] == [*(line.say for line in working), "Answer"]
    assert max(map(len, said)) == 6
    assert said[5] == [f"Line {n}" for n in range(1, 7)]
    assert said[6] == ["Line 6", "Line 7"]
    assert all(sum(map(height, screen.lines)) <= 9.2 for screen in shown)


@pytest.mark.parametrize(("count", "shared"), [(7, [7]), (8, [4, 4]), (14, [7, 7]), (15, [5, 5, 5])])
def test_entries_are_shared_out_over_as_few_screens_as_hold_them(count: int, shared: list[int]) -> None:
    """Seven lines with their gaps fill a screen; the eighth does not stand alone on the next."""
    notes = SafetyNote(title="Tapes", lines=tuple(f"Note {n}." for n in range(1, count + 1)))
    first = lesson(ANSWER)
    told = replace(first, key=replace(first.key, asked=replace(first.key.asked, safety=(notes,))))
    care = [screen for screen in screens(told) if screen.heading == "Take care: Tapes"]
    assert [len(screen.lines) for screen in care] == shared
    assert [line.says for screen in care for line in screen.lines] == list(notes.lines)


def test_parts_that_are_not_taught_again_stand_worked_out(space_of) -> None:
    """What a later part leans on is there, and the drawing with its sizes comes at the end."""
    [bank], notes = read_banks(find_banks(["opening_sizes"]))
    exercise = bank.exercises[0]
    space: Space = for_practice(space_of(bank, exercise))
    site = invented_site(1)
    issued = issue_exercise(1, bank, exercise, space.variant(0), site, "seed", "board")
    key = compose_exercise(1, issued, Sources(exercises={(bank.topic, exercise.name): (bank, exercise)}, safety=notes))
    made = screens(Lesson(key=key, exercise=exercise.name, parts=(1,), seen={}))
    [known] = [screen for screen in made if screen.heading == "1: worked out already"]
    assert [line.figure for line in known.lines] == [key.answers[0][0].answer]
    assert not any(screen.heading.startswith("Part 1a") for screen in made)
    drawn = [screen.drawing for screen in made if screen.drawing]
    assert drawn == [key.asked.drawing, key.drawing]
    assert made[-1].drawing == key.drawing
