"""A variant worked out: rounded answers carried on, and a learner's own in place of earlier parts'."""

from __future__ import annotations

from fractions import Fraction

from courseware.banks import solve
from courseware.banks.number_part import SolvedNumber
from courseware.banks.solve import scope_of

GIVEN = {"bricks": 4}


def test_a_figure_keeps_its_exact_value_and_the_one_to_be_written(exercise, number) -> None:
    part = number(answer="bricks / 3", round=2, within="0.01", accept=[{"value": "bricks / 2.9", "says": "By rule"}],
                  slips=[{"value": "bricks / 7", "says": "By weeks"}])  # fmt: skip
    [solved] = solve(exercise(parts=[part]), GIVEN)
    assert isinstance(solved, SolvedNumber)
    assert (solved.exact, solved.answer, solved.within) == (Fraction(4, 3), Fraction("1.33"), Fraction("0.01"))
    assert (solved.accept, solved.slips) == ((Fraction("1.38"),), (Fraction("0.57"),))  # rounded as the answer is
    assert solved.working == (Fraction(4, 3),)


def test_later_parts_take_the_answer_as_written(exercise, number) -> None:
    rounded = number("first", "bricks / 3", round=2)
    [_, second] = solve(exercise(parts=[rounded, number("second", "first * 3")]), GIVEN)
    assert second.answer == Fraction("3.99")


def test_later_parts_follow_a_learners_own_answer(exercise, number) -> None:
    sound = exercise(parts=[number("first", "pier(bricks)"), number("second", "first + joint")])
    assert [part.answer for part in solve(sound, GIVEN)] == [890, 900]
    assert [part.answer for part in solve(sound, GIVEN, {"first": 910})] == [890, 920]


def test_the_marks_of_an_exercise_are_those_of_its_parts(exercise, number) -> None:
    assert exercise(parts=[number(marks=3), number("second", marks=2)]).marks == 5


def test_the_names_of_a_variant_are_its_givens_and_its_answers(exercise, number) -> None:
    parts = [number("first", "pier(bricks)"), number("second", "first + joint")]
    assert scope_of(GIVEN, solve(exercise(parts=parts), GIVEN)) == {"bricks": 4, "first": 890, "second": 900}
