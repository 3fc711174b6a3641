"""Exercises built from the sound one below, one key changed at a time; what a part of them is on a paper."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import pytest

from courseware.banks import BankFaulty, Exercise, read_bank, solve
from courseware.banks.compile_formula import compile_formula
from courseware.banks.figures import Figure
from courseware.banks.formulas import Formula, Kind, Value
from courseware.banks.part import Solved
from courseware.banks.solve import scope_of
from courseware.banks.vocabulary import vocabulary
from courseware.papers.part_kind import PAPER_KINDS, Entries, labels
from courseware.papers.sheets import AskedPart, KeyAnswer
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


@dataclass(frozen=True, kw_only=True)
class OnPaper:
    """A part of one variant: worked out, in the sitting, as asked and on the key."""

    solved: Solved
    entries: Entries
    asked: AskedPart
    key: tuple[KeyAnswer, ...]
    scope: Mapping[str, Value]


def part_on_paper(part: Mapping[str, Any], seed: str = "a seed", **given: Figure | str) -> OnPaper:
    """The part with these keys, as part `1a` of a paper, for one variant of the pier: `bricks=4`."""
    exercise = exercise_with(parts=[dict(part)])
    [solved] = solve(exercise, given)
    scope, kind = scope_of(given, (solved,)), PAPER_KINDS[solved.part.kind]
    entries = tuple(kind.issue(solved, labels(1, solved.part, 0), scope, {}, (seed, "paper", exercise.name)))
    return OnPaper(
        solved=solved,
        entries=entries,
        asked=kind.asked(solved, entries, scope, {}),
        key=kind.key(solved, entries, scope, {}),
        scope=scope,
    )


@pytest.fixture(scope="session")
def on_paper() -> Callable[..., OnPaper]:
    return part_on_paper


@pytest.fixture(scope="session")
def number() -> Callable[..., dict[str, Any]]:
    return number_part


@pytest.fixture(scope="session")
def exercise() -> Callable[..., Exercise]:
    return exercise_with


@pytest.fixture(scope="session")
def formula() -> Callable[..., Formula]:
    return compiled


@pytest.fixture(scope="session")
def faults() -> Callable[..., list[str]]:
    """What is told of an exercise with these parts and keys, without the places; nothing where it reads."""

    def told(*parts: Mapping[str, Any], **keys: Any) -> list[str]:
        try:
            exercise_with(**{"parts": list(parts) or [number_part()], **keys})
        except BankFaulty as faulty:
            return [f"{fault.wrong}; {fault.expected}" for fault in faulty.faults]
        return []

    return told
