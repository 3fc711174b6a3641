"""Whatever stands wherever in a bank, the reader answers in its own words, and what it reads can be walked."""

from __future__ import annotations

import contextlib
import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.banks import BankFaulty, prove, read_bank
from courseware.text_files.yaml_text import read_yaml
from courseware.text_files.yaml_tree import plain_data

GOOD = [plain_data(read_yaml(path.read_bytes(), path.name)) for path in Path(__file__).parent.glob("good/*.yaml")]
Place = tuple[Any, str | int]


def places(inside: Any) -> Iterator[Place]:
    """Every place in the bank, as the list or map and the key in it."""
    for key, value in list(inside.items() if isinstance(inside, dict) else enumerate(inside)):
        yield inside, key
        if isinstance(value, dict | list):
            yield from places(value)


odd = st.sampled_from([
    None, "", " ", "0", "-1", "1", "3", "1.5", "999999999999999", "x", "bricks", "courses", "joint", "length", "true", "false",
    "bricks > 3", "'left'", "bricks / 7", "1 / 0", "pier(0)", "{{ bricks }}", "{{", "{{ 1 / 7 }}", "2 to 9", "9 to 2", "number",
    "choice", "order", "table", "drawn", "opening", "pier", "GERMAN_NF", [], {}, [[]], [{}], {"": ""}, ["x"], [["x", "y"]],
    {"kind": "pier"}, {"kind": "opening", "shows": [["x"]], "asks": {"width": ["x"]}}, [{"name": "x", "say": "x"}],
])  # fmt: skip


@settings(deadline=None, max_examples=3 * settings.default.max_examples)
@given(st.data())
def test_any_bank_gets_an_answer(data: st.DataObject) -> None:
    bank = copy.deepcopy(data.draw(st.sampled_from(GOOD)))
    for _ in range(data.draw(st.integers(1, 3))):
        inside, key = data.draw(st.sampled_from(list(places(bank))))
        match data.draw(st.sampled_from(["put", "put", "take", "again", "move"])):
            case "put":
                inside[key] = copy.deepcopy(data.draw(odd))
            case "take":
                del inside[key]
            case "again" if isinstance(inside, list):
                inside.append(copy.deepcopy(inside[key]))
            case _ if isinstance(inside, dict):
                inside[data.draw(st.sampled_from(["name", "value", "answer", "working", "rows", "marks"]))] = (
                    inside.pop(key)
                )
        if not list(places(bank)):
            return
    with contextlib.suppress(BankFaulty):
        read = read_bank(json.dumps(bank, ensure_ascii=False).encode(), "any.yaml")
        for exercise in read.exercises:
            prove(exercise)
