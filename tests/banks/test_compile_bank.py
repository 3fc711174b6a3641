"""From a bank's shape to its exercises: names, bricks, givens and limits, each checked where it stands."""

from __future__ import annotations

import json

import pytest

from courseware.banks import BankFaulty, read_bank
from courseware.banks.compile_bank import MOST_VARIANTS
from courseware.trade import AUSTRALIAN, UK_METRIC

BRICK = {"name": "Own", "length": "240", "width": "115", "height": "71", "perpend": "10", "bed": "12"}


def bank_of(exercises: list[dict], **keys: str) -> bytes:
    return json.dumps({"topic": "Piers", "aim": "Work out", **keys, "exercises": exercises}).encode()


@pytest.fixture
def pier(number):
    return {"name": "pier", "level": 1, "given": {"bricks": "2 to 9"}, "pose": "A pier.", "parts": [number()]}


def test_a_topic_holds_at_most_sixty_exercises(pier) -> None:
    exercises = [{**pier, "name": f"pier-{n}"} for n in range(61)]
    assert len(read_bank(bank_of(exercises[:60]), "a.yaml").exercises) == 60
    with pytest.raises(BankFaulty, match="61 exercises; at most 60 to a topic"):
        read_bank(bank_of(exercises), "a.yaml")


@pytest.mark.parametrize("key", ["topic", "aim"])
@pytest.mark.parametrize(
    ("text", "fits"), [("", False), ("  ", False), ("x", True), ("x" * 200, True), ("x" * 201, False)]
)
def test_a_topic_and_its_aim_are_of_one_to_two_hundred_characters(pier, key: str, text: str, fits: bool) -> None:
    if fits:
        assert getattr(read_bank(bank_of([pier], **{key: text}), "a.yaml"), key) == text
        return
    with pytest.raises(BankFaulty, match=f"`{key}` is empty or too long; expected 1 to 200 characters"):
        read_bank(bank_of([pier], **{key: text}), "a.yaml")


def test_an_exercises_name_stands_once_and_is_told_with_the_line_of_the_first(pier) -> None:
    text = "topic: T\naim: A\nexercises:\n" + f"  - {json.dumps(pier)}\n" * 2
    with pytest.raises(
        BankFaulty, match=r"a\.yaml:5:14: the exercise `pier` stands on line 4 too; expected each name once"
    ):
        read_bank(text.encode(), "a.yaml")


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ({"level": 1}, []), ({"level": 3}, []), ({"level": 0}, ["level 0; expected 1, 2 or 3"]), ({"level": 4}, ["level 4; expected 1, 2 or 3"]),
        ({"brick_line": "sizes"}, []), ({"brick_line": "size"}, ["the brick's line cannot be `size`; did you mean `sizes`? expected one of all, sizes, none"]),
        ({"where": "bricks > 3"}, []), ({"where": "bricks"}, ["`bricks` is a number; expected a truth"]),
        ({"pose": "x " * 500}, []), ({"pose": "x " * 501}, ["the text has 1001 characters; at most 1000 are allowed here"]),
        ({"setting": ["A yard.", "A {{ brick }} wall."]}, ["`brick` is not known here; did you mean `bricks`?"]),
    ],
)  # fmt: skip
def test_what_an_exercise_may_say(faults, keys, told: list[str]) -> None:
    assert [one[: len(start)] for one, start in zip(faults(**keys), told, strict=True)] == told


@pytest.mark.parametrize("count", [8, 9])
def test_an_exercise_has_at_most_eight_parts(faults, number, count: int) -> None:
    parts = [number(f"part_{n}", f"bricks + {n}") for n in range(count)]
    assert faults(*parts) == ([] if count == 8 else ["9 parts; at most 8 to an exercise"])


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("long", []),
        ("module", ["the name `module` would hide one the tool uses; expected another name"]),
        ("opening", ["the name `opening` would hide one the tool uses; expected another name"]),
        ("place", ["the name `place` would hide one the tool uses; expected another name"]),
        ("joint", ["the name `joint` would hide one the tool uses; expected another name"]),
        ("for", ["the name `for` would hide one the tool uses; expected another name"]),
        ("bricks", ["the name `bricks` is used twice in this exercise; expected each name once"]),
    ],
)
def test_a_parts_name_hides_nothing(faults, number, name: str, told: list[str]) -> None:
    assert faults(number(name, "bricks * 2")) == told


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({f"g{n}": "1 to 2" for n in range(17)}, []),  # 131 072
        ({f"g{n}": "1 to 2" for n in range(18)}, [f"262144 variants; at most {MOST_VARIANTS}: narrow the ranges"]),
        ({"a": "1 to 400", "b": "1 to 500"}, []),  # 200 000
        ({"a": "1 to 400", "b": "1 to 501"}, [f"200400 variants; at most {MOST_VARIANTS}: narrow the ranges"]),
        ({f"g{n}": ["1"] for n in range(20)}, []),
        ({f"g{n}": ["1"] for n in range(21)}, ["21 givens; at most 20 to an exercise"]),
    ],
    ids=["17-of-two", "18-of-two", "at-the-most", "over-the-most", "20-givens", "21-givens"],
)
def test_there_are_at_most_so_many_givens_and_variants(faults, number, given, told: list[str]) -> None:
    assert faults(number(answer="1"), given=given) == told


@pytest.mark.parametrize(
    ("format", "brick"),
    [("UK_METRIC", UK_METRIC), ("AUSTRALIAN", AUSTRALIAN)],
)
def test_a_brick_is_known_by_its_name(exercise, format: str, brick) -> None:
    assert exercise(format=format).format == brick


def test_a_brick_may_be_the_banks_own_and_its_formulas_go_by_it(exercise, number) -> None:
    made = exercise(
        format=BRICK, parts=[number(answer="module + course", working=[{"say": "So", "value": "250 + 83"}])]
    )
    assert (made.format.name, made.format.bed) == ("Own", 12)
    assert made.parts[0].answer.figure({}) == 250 + 83


@pytest.mark.parametrize(
    ("format", "told"),
    [
        ("UK_METRC", "no brick format is named `UK_METRC`; did you mean `UK_METRIC`?"),
        ({"name": "Own"}, "the brick lacks length, width, height, perpend, bed; expected name, length"),
        ({**BRICK, "frog": "5"}, "the key `frog` is not known; expected name, length"),
        ({**BRICK, "length": "0"}, "no such brick: Own: a brick's length of 0 mm cannot be"),
        ({**BRICK, "length": "240 mm"}, "no such brick: '240 mm' is not a figure"),
    ],
)
def test_a_brick_that_cannot_be_is_told(faults, number, format, told: str) -> None:
    [fault] = faults(number(answer="1"), format=format)
    assert fault.startswith(told)
