"""Invented classes: sittings of any size, with marks as a class of mixed skill earns them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from random import Random

import pytest

from courseware.files.bank_files import find_banks, read_banks
from courseware.marking.marks import Mark, MarkedPaper, MarkedSitting, NamedSlip
from courseware.papers.deal import Heads, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.sitting import IssuedExercise, IssuedPaper, IssuedPart


def invented_mark(exercise: IssuedExercise, part: IssuedPart, skill: float, rng: Random) -> Mark:
    """A mark as a learner of that skill (0 to 1) may earn it: right, a slip of the bank, or nothing."""
    luck = rng.random()
    if luck < skill:
        return Mark(label=part.label, marks=part.marks, of=part.marks, how="right", why="", written=part.answer)
    if part.slips and luck < skill + (1 - skill) * 0.7:
        place = min(int(rng.random() ** 2 * len(part.slips)), len(part.slips) - 1)
        slip = NamedSlip(key=f"{exercise.exercise}/{part.name}/{place + 1}", says=part.slips[place][1])
        marks = min(1, part.marks - 1)
        return Mark(label=part.label, marks=marks, of=part.marks, how="slip", why="", slips=(slip,))
    how = rng.choice(("blank", "unreached", "unknown"))
    return Mark(label=part.label, marks=0, of=part.marks, how=how, why="")


def invented_paper(paper: IssuedPaper, skill: float, rng: Random) -> MarkedPaper:
    marks = [invented_mark(e, part, skill, rng) for e in paper.exercises for part in e.parts]
    return MarkedPaper(code=paper.code, status="", marks=tuple(marks))


@pytest.fixture(scope="session")
def class_of(space_of) -> Callable[..., MarkedSitting]:
    """A sitting for so many numbered papers, marked."""
    made: dict[tuple[int, tuple[str, ...], int, str], MarkedSitting] = {}

    def deal(
        learners: int, topics: Sequence[str] = ("opening_sizes",), exercises: int = 6, seed: str = "an invented class"
    ) -> MarkedSitting:
        asked = (learners, tuple(topics), exercises, seed)
        if asked not in made:
            banks, notes = read_banks(find_banks(list(topics)))
            each = exercises // len(banks)  # from the second of each bank on, whatever else a bank may say
            chosen = tuple((bank, exercise) for bank in banks for exercise in bank.exercises[1 : 1 + each])
            group = replace(numbered(learners), name="Group T")
            heads = Heads(title="Setting out", date="2026-01-05", group=group, seed=seed, version="0")
            sitting = deal_sitting(heads, banks, notes, chosen, [space_of(*pair) for pair in chosen])
            rng = Random(seed)
            marked = [invented_paper(paper, 0.25 + 0.65 * rng.random(), rng) for paper in sitting.papers]
            made[asked] = MarkedSitting(sitting, tuple(marked))
        return made[asked]

    return deal


@pytest.fixture(scope="session")
def ten_by_ten() -> list[list[int]]:
    """Source: item-analysis, ten learners by ten items."""
    rows = (
        "1111110110", "1011011101", "1111011001", "0010001000", "0000010010", "1110111111", "1101110111", "1111111101",
        "0101111101", "1101101110",
    )  # fmt: skip
    return [[int(mark) for mark in row] for row in rows]
