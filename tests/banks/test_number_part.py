"""A figure asked for: rounding, the working as shown, a learner's own in its place, how hard it is."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks import solve
from courseware.banks.number_part import rounded, shown_lines, solve_number


def test_a_figure_has_all_its_words_those_of_the_key_too(exercise, number) -> None:
    slips, accept = [{"value": "1", "says": "One"}], [{"value": "2", "says": "Two"}]
    [part] = exercise(parts=[number(slips=slips, accept=accept)]).parts
    assert [words.render({}, {}) for words in part.wordings] == ["How much is it?", "Two", "One", "Work it out"]
    assert part.names == (("length", "number", ("name",)),)


@pytest.mark.parametrize(
    ("places", "value", "asked"),
    [(None, Fraction(1, 3), Fraction(1, 3)), (0, Fraction(5, 2), 3), (1, Fraction(1, 8), Fraction("0.1")), (2, Fraction(1, 8), Fraction("0.13")), (2, 7, 7)],
)  # fmt: skip
def test_a_figure_is_rounded_half_up_as_its_part_asks(exercise, number, places, value, asked) -> None:
    keys = {} if places is None else {"round": places}
    assert rounded(exercise(parts=[number(**keys)]).parts[0], value) == asked


def test_of_the_working_the_last_line_alone_is_shown_as_the_part_asks(exercise, number) -> None:
    lines = [{"say": "A part", "value": "bricks / 7"}, {"say": "Words"}, {"say": "So", "value": "bricks / 7"}]
    [solved] = solve(exercise(parts=[number(answer="bricks / 7", round=1, working=lines)]), {"bricks": 4})
    assert solved.working == (Fraction(4, 7), None, Fraction(4, 7))
    assert shown_lines(solved) == (Fraction(4, 7), None, Fraction("0.6"))


def test_a_learners_own_figure_stands_for_those_after_it(exercise, number) -> None:
    [part] = exercise(parts=[number()]).parts
    scope = {"bricks": 4}
    assert part.solve(scope, {"length": 910}).answer == 890
    assert scope["length"] == 910
    assert solve_number(part, {"bricks": 5}).answer == 1115


@pytest.mark.parametrize(
    ("answer", "keys", "signature"),
    [
        ("890", {}, (3, 0, False)), ("1000", {}, (4, 0, False)), ("112.5", {}, (3, 1, False)), ("1 / 3", {}, (1, 2, False)),
        ("1 / 3", {"round": 2}, (1, 2, True)), ("2", {"round": 2}, (1, 2, False)), ("1 / 3", {"round": 0}, (1, 0, True)),
    ],
)  # fmt: skip
def test_how_hard_it_is_goes_by_digits_halves_and_rounding(exercise, number, answer, keys, signature) -> None:
    [solved] = solve(exercise(parts=[number(answer=answer, **keys)]), {"bricks": 4})
    assert solved.signature == (signature,)


def test_what_is_accepted_is_the_answer_its_routes_and_the_workings_end(exercise, number) -> None:
    [solved] = solve(exercise(parts=[number(accept=[{"value": "885", "says": "Off the tape"}])]), {"bricks": 4})
    assert solved.accepted == (890, (885,), 890)
    assert (solved.value, solved.numbers) == (890, (solved,))
