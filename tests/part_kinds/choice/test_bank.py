"""A choice in a bank: which choices are right by either route, what the proof finds wrong, and what is no choice."""

from __future__ import annotations

import pytest

from courseware.banks import prove, solve
from courseware.banks.solve import scope_of

GIVEN = {"bricks": 4}
ASKED = {"name": "which", "kind": "choice", "ask": "Which?", "marks": 1}
IMPOSSIBLE = "3.2 bricks cannot be set out: bricks go in halves; the nearest are 3 and 3½ bricks"
ROUND_IT = "it does not write out exactly: round it, as in nearest(x, 0.01)"


def working(*values: str) -> dict[str, object]:
    return {"working": [{"say": f"Line {n}", "value": value} for n, value in enumerate(values, 1)]}


def one_right(*values: str, **keys: object) -> dict[str, object]:
    """A choice whose answer is a pier's length, in the working by the bank's own arithmetic."""
    choices = [{"say": f"Choice {n}", "value": value} for n, value in enumerate(values, 1)]
    return {**ASKED, "choices": choices, "answer": "pier(bricks)", **working("bricks * module - joint"), **keys}


def several(*truths: tuple[str, str]) -> dict[str, object]:
    choices = [{"say": f"Choice {n}", "right": right, "check": check} for n, (right, check) in enumerate(truths, 1)]
    return {**ASKED, "several": True, "choices": choices}


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
    [solved] = solve(exercise(parts=[one_right(*values, answer=answer, **working(answer))]), GIVEN)
    assert list(solved.right) == right
    assert solved.only_right == right.index(True)


def test_where_several_are_right_each_stands_by_its_own_truth(exercise) -> None:
    part = several(("bricks > 3", "bricks > 3.5"), ("bricks > 4", "False"), ("True", "True"))
    [solved] = solve(exercise(parts=[part]), GIVEN)
    assert (solved.answer, solved.right, solved.checked) == (None, (True, False, True), (True, False, True))
    assert solved.only_right is None


def test_a_choice_can_be_used_by_later_parts(exercise, number) -> None:
    parts = [one_right("890", "900"), number("again", "which + joint")]
    solved = solve(exercise(parts=parts), GIVEN)
    assert solved[1].answer == 900
    assert scope_of(GIVEN, solved) == {"bricks": 4, "which": 890, "again": 900}
    assert solve(exercise(parts=parts), GIVEN, {"which": 900})[1].answer == 910  # a learner's own tick


def test_more_right_choices_are_another_difficulty(exercise) -> None:
    signatures = {
        solve(exercise(parts=[several((f"bricks > {n}", "True"), ("True", "True"))]), GIVEN)[0].signature
        for n in (2, 3, 4, 5)
    }
    assert signatures == {(2,), (1,)}


def test_a_wrong_choice_may_say_what_it_is_counted_by(exercise) -> None:
    part = one_right("440", "1")
    part["choices"] = [part["choices"][0], {**part["choices"][1], "misconception": "the joint was left out"}]
    assert exercise(parts=[part]).parts[0].misconceptions == {"choice-2": "the joint was left out"}


@pytest.mark.parametrize(
    ("part", "why"),
    [
        (one_right("1", "2"), "which: 0 choices equal the answer 440; exactly one must"),
        (one_right("440", "pier(bricks)"), "which: 2 choices equal the answer 440; exactly one must"),
        (one_right("440", "1", "1"), "which: two choices have the same value"),
        (one_right("440", "1", answer="pier(bricks) + 1"), "which: `answer` gives 441, the last line of the working 440"),
        (one_right("440", "1", **working("440", "441", "442")), "which: `answer` gives 440, the last line of the working 442"),
        (one_right("440", "1", **working("'long'")), "which: `answer` gives 440, the last line of the working long"),
        (one_right("440", "1", **working("bricks / 7", "440")), f"`which, line 1 of the working` gives about 0.2857: {ROUND_IT}"),
        (one_right("'a'", "'b'", answer="'c'", **working("'c'")), "which: 0 choices equal the answer c; exactly one must"),
        (one_right("440", "pier(3.2)"), IMPOSSIBLE),
        (several(("bricks > 1", "bricks > 2"), ("False", "False")), "which: `right` and `check` disagree about a choice"),
        (several(("False", "False"), ("False", "False")), "which: 0 of 2 choices are right; some must be, not all"),
        (several(("True", "True"), ("True", "True")), "which: 2 of 2 choices are right; some must be, not all"),
    ],
)  # fmt: skip
def test_a_choice_fails_its_proof(exercise, part: dict[str, object], why: str) -> None:
    failure = prove(exercise(parts=[part])).failure
    assert (failure.raw, failure.given, failure.why) == (0, "bricks = 2", why)


def test_it_is_the_last_line_of_a_choice_that_is_its_answer(exercise) -> None:
    lines = working("bricks * module", "joint", "bricks * module - joint")
    assert prove(exercise(parts=[one_right("pier(bricks)", "1", **lines)])).failure is None


@pytest.mark.parametrize(
    ("count", "told"), [(1, ["1 choices; expected 2 to 6"]), (2, []), (6, []), (7, ["7 choices; expected 2 to 6"])]
)
def test_there_are_two_to_six_choices(faults, count: int, told: list[str]) -> None:
    assert faults(one_right(*map(str, range(count)))) == told


@pytest.mark.parametrize(
    ("part", "told"),
    [
        ({**ASKED, "choices": one_right("1", "2")["choices"]}, "the key `answer` is missing"),
        ({**several(("True", "True"), ("False", "False")), "answer": "1", **working("1")}, "several choices and one answer"),
        ({**one_right("1", "2"), "working": []}, "the key `working` is missing"),
        (one_right("1", "'three'"), "`'three'` is a word; expected a number"),
        (several(("bricks", "True"), ("True", "True")), "`bricks` is a number; expected a truth"),
    ],
)  # fmt: skip
def test_keys_that_do_not_go_together_are_told(faults, part, told: str) -> None:
    assert any(fault.startswith(told) for fault in faults(part))
