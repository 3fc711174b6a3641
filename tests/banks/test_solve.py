"""A variant worked out: rounded answers carried on, choices by their value, tables row by row, a learner's own lines."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks import solve
from courseware.banks.part import Solved, SolvedNumber
from courseware.banks.solve import scope_of
from courseware.part_kinds.choice.bank import SolvedChoice
from courseware.part_kinds.table.bank import SolvedTable

GIVEN = {"bricks": 4}


def choice(**keys: object) -> dict[str, object]:
    return {"name": "which", "kind": "choice", "ask": "Which?", "marks": 1, **keys}


def one_right(answer: str, *values: str) -> dict[str, object]:
    return choice(
        answer=answer,
        working=[{"say": "So", "value": answer}],
        choices=[{"say": f"Choice {n}", "value": value} for n, value in enumerate(values)],
    )


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


@pytest.mark.parametrize(
    ("answer", "values", "right"),
    [
        ("pier(bricks)", ("bricks * module", "890", "bricks * 215"), [False, True, False]),
        ("'left' if bricks > 3 else 'right'", ("'left'", "'right'"), [True, False]),
        ("bricks > 3", ("True", "False"), [True, False]),
        ("0.5", ("1 / 2", "5"), [True, False]),
    ],
)
def test_the_choice_whose_value_equals_the_answer_is_right(
    exercise, answer: str, values: tuple[str, ...], right: list[bool]
) -> None:
    [solved] = solve(exercise(parts=[one_right(answer, *values)]), GIVEN)
    assert isinstance(solved, SolvedChoice)
    assert list(solved.right) == right


def test_where_several_are_right_each_stands_by_its_own_truth(exercise) -> None:
    truths = [("bricks > 3", "bricks > 3.5"), ("bricks > 4", "False"), ("True", "True")]
    several = choice(several=True, choices=[{"say": "So", "right": r, "check": c} for r, c in truths])
    [solved] = solve(exercise(parts=[several]), GIVEN)
    assert (solved.answer, solved.right, solved.checked) == (None, (True, False, True), (True, False, True))


def test_a_choice_can_be_used_by_later_parts(exercise, number) -> None:
    parts = [one_right("pier(bricks)", "890", "900"), number("again", "which + joint")]
    solved = solve(exercise(parts=parts), GIVEN)
    assert solved[1].answer == 900
    assert scope_of(GIVEN, solved) == {"bricks": 4, "which": 890, "again": 900}


def test_each_row_of_a_table_can_use_those_above_it_and_later_parts_any(exercise, number) -> None:
    rows = [
        {**number(name, answer), "say": "How many?"} for name, answer in [("net", "bricks * 60"), ("waste", "net / 20")]
    ]
    for row in rows:
        del row["ask"]
    table = {"name": "order", "kind": "table", "ask": "Work out the order.", "rows": rows}
    [solved, total] = solve(exercise(parts=[table, number("total", "net + waste")]), GIVEN)
    assert isinstance(solved, SolvedTable)
    assert [row.answer for row in solved.rows] == [240, 12]
    assert (total.answer, solved.part.marks) == (252, 2)


def test_an_order_and_a_drawing_have_nothing_to_work_out(exercise) -> None:
    steps = [{"name": name, "say": f"{name} {{{{ bricks }}}}"} for name in ("mark", "lay", "point")]
    order = {
        "name": "sequence",
        "kind": "order",
        "ask": "In order?",
        "marks": 1,
        "steps": steps,
        "before": [["mark", "lay"]],
    }
    drawn = {"name": "sketch", "kind": "drawn", "ask": "Sketch it.", "marks": 4, "points": ["In bond", "To gauge"]}
    solved = solve(exercise(parts=[order, drawn]), GIVEN)
    assert all(type(part) is Solved for part in solved)
    assert [say.render(GIVEN, {}) for _, say in solved[0].part.steps] == ["mark 4", "lay 4", "point 4"]
    assert solved[0].part.before == (("mark", "lay"),)


def test_the_marks_of_an_exercise_are_those_of_its_parts(exercise, number) -> None:
    assert exercise(parts=[number(marks=3), number("second", marks=2)]).marks == 5
