"""What several kinds of part are read by: formulas and words in their scope, marks, routes, lines of working."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from courseware.banks import read_bank
from courseware.settings.settings import DEFAULTS

LINE = {"say": "So", "value": "bricks"}


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ({"ask": "x " * 250}, []), ({"ask": "x " * 251}, ["the text has 501 characters; at most 500 are allowed here"]),
        ({"ask": "  "}, ["the text is empty; expected words"]),
        ({"ask": "Is it {{ length }}?"}, ["`length` is not known here"]),  # an answer cannot stand in its question
        ({"slips": [{"value": "1", "says": "x " * 150}]}, []), ({"slips": [{"value": "1", "says": "x " * 151}]}, ["the text has 301 characters"]),
        ({"slips": [{"value": str(n), "says": "One"} for n in range(8)]}, []),
        ({"slips": [{"value": str(n), "says": "One"} for n in range(9)]}, ["9 entries; at most 8"]),
        ({"accept": [{"value": "1", "says": "One", "earns": 1}]}, []), ({"accept": [{"value": "1", "says": "One", "earns": 2}]}, ["2 marks of 1"]),
        ({"slips": [{"value": "1", "says": "One", "misconception": "x " * 40}]}, []),
        ({"slips": [{"value": "1", "says": "One", "misconception": "x " * 41}]}, ["the text has 81 characters; at most 80"]),
        ({"slips": [{"value": "1", "says": "One", "misconception": "took {{ bricks }}"}]}, ["`misconception` has a place to fill in"]),
        ({"working": [LINE] * 12}, []), ({"working": [LINE] * 13}, ["13 lines of working; at most 12"]),
        ({"working": [{**LINE, "earns": "mark"}]}, ["`mark` is not a kind of mark; expected method or accuracy"]),
        ({"working": [{**LINE, "earns": "method"}]}, []),
        ({"working": [{**LINE, "earns": "method"}, {**LINE, "earns": "accuracy"}]}, ["the lines earn 2 marks, the part has 1"]),
        ({"marks": 2, "working": [{**LINE, "earns": "method"}, {**LINE, "earns": "accuracy"}]}, []),
        ({"marks": 2, "working": [{**LINE, "earns": "method"}]}, ["the lines earn 1 marks, the part has 2; expected the same number"]),
        ({"marks": 2, "working": [LINE]}, []),  # where no line says what it earns, the last earns all
        ({"working": [LINE, {"say": "See the sketch"}]}, ["the last line of the working has no value; expected the answer"]),
        ({"working": [{"say": "See the sketch"}, LINE]}, []),
    ],
)  # fmt: skip
def test_what_may_stand_in_a_part(faults, number, keys, told: list[str]) -> None:
    assert [
        one[: len(start)] for one, start in zip(faults({**number(answer="bricks"), **keys}), told, strict=True)
    ] == told


def test_what_a_slip_is_counted_by_is_plain_words_without_a_stop(exercise, number) -> None:
    slips = [
        {"value": "1", "says": "One", "misconception": " the beds  were left out. "},
        {"value": "2", "says": "Two"},
    ]
    [part] = exercise(parts=[number(slips=slips)]).parts
    assert [slip.misconception for slip in part.slips] == ["the beds were left out", ""]
    assert part.misconceptions == {"1": "the beds were left out"}


def test_a_question_cannot_use_earlier_answers_and_a_working_can(faults, number) -> None:
    first = number("first", "bricks * 2")
    assert faults(first, number("second", "first * 2", slips=[{"value": "1", "says": "Took {{ first }}"}])) == []
    [told] = faults(first, number("second", "first * 2", ask="Twice {{ first }}?"))
    assert told.startswith("`first` is not known here")


def test_what_is_faulty_is_told_and_the_rest_read_on(faults, number) -> None:
    working = [LINE]
    parts = [
        number("first", "bricks +", working=working),
        number("second", "first * 2", ask="{{ }}", working=working),
        number("third", "second + motar", working=working),
    ]
    told = faults(*parts)
    assert [one[:30] for one in told] == [
        "`bricks +` does not read as a ",
        "the formula is empty; expected",
        "`motar` is not known here; a w",
    ]


def test_words_are_the_centres_own_for_the_upright_joint(number) -> None:
    exercise = {
        "name": "pier",
        "level": 1,
        "given": {"bricks": "2 to 9"},
        "pose": "Count each perpend.",
        "parts": [number()],
    }
    bank = json.dumps({"topic": "Piers", "aim": "Work out", "exercises": [exercise]}).encode()
    own = read_bank(bank, "a.yaml", replace(DEFAULTS, upright_joint="cross joint"))
    assert own.exercises[0].pose.render({}, {}) == "Count each cross joint."
    assert read_bank(bank, "a.yaml").exercises[0].pose.render({}, {}) == "Count each perpend."
