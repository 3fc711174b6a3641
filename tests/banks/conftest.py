"""What the tests of banks share: exercises built from the sound one below, one key changed at a time."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from courseware.banks import Exercise, read_bank
from courseware.banks.formulas import Formula, Kind, compile_formula
from courseware.banks.vocabulary import vocabulary
from courseware.trade import UK_METRIC, Format

WORDS = vocabulary(UK_METRIC)


def number_part(name: str = "length", answer: str = "pier(bricks)", **keys: Any) -> dict[str, Any]:
    """A number part whose working is its own answer, unless told otherwise."""
    working = [{"say": "Work it out", "value": answer}]
    return {"name": name, "ask": "How much is it?", "answer": answer, "marks": 1, "working": working, **keys}


def exercise_with(**keys: Any) -> Exercise:
    """The pier of 2 to 9 bricks, with these keys in place of its own. JSON is YAML, so a bank may be written in it."""
    sound = {
        "name": "pier-length",
        "level": 1,
        "given": {"bricks": "2 to 9"},
        "pose": "A pier stands beside the gate.",
        "parts": [number_part()],
    }
    bank = {"topic": "Piers", "aim": "Work out a pier", "exercises": [{**sound, **keys}]}
    [read] = read_bank(json.dumps(bank, ensure_ascii=False).encode(), "piers.yaml").exercises
    return read


def compiled(text: str, format: Format = UK_METRIC, **kinds: Kind) -> Formula:
    """A formula in the scope of an exercise whose givens are of these kinds."""
    words = WORDS if format is UK_METRIC else vocabulary(format)
    return compile_formula(text, kinds, words.constants, words.functions)


@pytest.fixture(scope="session")
def number() -> Callable[..., dict[str, Any]]:
    return number_part


@pytest.fixture(scope="session")
def exercise() -> Callable[..., Exercise]:
    return exercise_with


@pytest.fixture(scope="session")
def formula() -> Callable[..., Formula]:
    return compiled
