"""From the shape of a part to the part: by the keys of its kind, each told once where it lacks or does not belong."""

from __future__ import annotations

import json

import pytest

from courseware.banks import BankFaulty, read_bank

STEPS = [{"name": name, "say": f"Step {name}"} for name in "pqr"]
ORDER = {"name": "sequence", "kind": "order", "ask": "In order?", "marks": 1, "steps": STEPS, "before": [["p", "q"]]}


@pytest.mark.parametrize("name", ["answer", "marks", "working", "ask", "name"])
def test_a_part_without_one_of_its_keys_is_told_once(name: str, number) -> None:
    part = {key: value for key, value in number().items() if key != name}
    exercise = {"name": "pier", "level": 1, "given": {"bricks": "2 to 9"}, "pose": "A pier.", "parts": [part]}
    data = json.dumps({"topic": "Piers", "aim": "Work out", "exercises": [exercise]}).encode()
    with pytest.raises(BankFaulty) as faulty:
        read_bank(data, "a.yaml")
    [told] = faulty.value.faults
    assert told.wrong == f"the key `{name}` is missing"


@pytest.mark.parametrize("key", ["steps", "before", "marks"])
def test_so_is_one_of_another_kind(faults, key: str) -> None:
    part = {name: value for name, value in ORDER.items() if name != key}
    assert faults(part) == [f"the key `{key}` is missing; a part of kind order needs steps, before, marks"]


def test_a_kind_that_is_not_known_is_told_with_those_there_are(faults) -> None:
    [told] = faults({**ORDER, "kind": "ordre"})
    assert told == (
        "no part is of kind `ordre`; did you mean `order`? expected one of number, choice, order, table, drawn, words"
    )


def test_keys_of_another_kind_are_told_one_by_one(faults, number) -> None:
    keys = "answer, unit, round, within, accept, working, slips, told, fixed, apart_from"
    assert sorted(faults(number(steps=STEPS, before=[["p", "q"]]))) == [
        f"a part of kind number has no `{key}`; expected {keys}" for key in ("before", "steps")
    ]


@pytest.mark.parametrize(
    ("marks", "told"),
    [("0", ["0 marks; expected 1 to 20"]), ("1", []), ("20", []), ("21", ["21 marks; expected 1 to 20"])],
)
def test_marks_are_one_to_twenty(faults, marks: str, told: list[str]) -> None:
    assert faults({**ORDER, "marks": marks}) == told


def test_a_part_of_a_kind_is_bound_by_its_kind(exercise, number) -> None:
    kinds = [part.kind for part in exercise(parts=[number(), ORDER]).parts]
    assert kinds == ["number", "order"]
