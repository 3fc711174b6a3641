"""The questions that are practised: from the practice share alone, the same for the same banks, and as papers say them."""

from __future__ import annotations

import json
from functools import lru_cache
from pathlib import Path

from courseware.banks import Bank, SafetyNotes, Space, prove, read_bank, read_safety_notes
from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.files.bank_files import find_banks, read_banks
from courseware.papers.shares import for_practice
from courseware.practice.kinds import PracticeKind, needs_paper, practice_kinds
from courseware.practice.payload import kind_data

FOLDER = Path(__file__).parents[2] / "question_banks"
NAMES = ("opening-for-a-panel", "which-rule", "setting-out-order", "wall-between-two-wings")


@lru_cache(maxsize=1)
def bank_and_notes() -> tuple[Bank, SafetyNotes]:
    notes = FOLDER / "safety_notes.yaml"
    bank = FOLDER / "opening_sizes.yaml"
    return read_bank(bank.read_bytes(), bank.name), read_safety_notes(notes.read_bytes(), notes.name)


@lru_cache(maxsize=8)
def share(name: str) -> Space:
    return for_practice(prove(next(e for e in bank_and_notes()[0].exercises if e.name == name)).space)


def kinds(*names: str, most: int = 5) -> tuple[PracticeKind, ...]:
    bank, notes = bank_and_notes()
    chosen = [(bank, share(name).exercise) for name in names]
    return practice_kinds(chosen, [share(name) for name in names], notes, most)


def test_every_question_is_of_the_practice_share_and_none_comes_twice() -> None:
    (kind,) = kinds("opening-for-a-panel", most=100)
    space = share("opening-for-a-panel")
    offered = {str(sorted(space.variant(index).items())) for index in range(len(space))}
    asked = [str(sorted({k: int(v) for k, v in q.issued.given.items()}.items())) for q in kind.questions]
    assert len(asked) == len(set(asked)) == len(space)
    assert set(asked) == offered


def test_the_same_banks_give_the_same_questions() -> None:
    first, again = ([json.dumps(kind_data(kind)) for kind in kinds(*NAMES)] for _ in range(2))
    assert first == again


def test_an_exercise_without_variants_for_practice_is_left_out() -> None:
    bank, notes = bank_and_notes()
    exercise = bank.exercises[0]
    assert practice_kinds([(bank, exercise)], [Space(exercise=exercise, indices=())], notes) == ()


def test_an_exercise_that_is_drawn_in_at_true_size_has_its_drawing_in_that_size_alone(space_of) -> None:
    """The printed one serves every variant: such a drawing has no figures of its own."""
    banks, notes = read_banks(find_banks(["mitre_template"]))
    chosen = [(bank, exercise) for bank in banks for exercise in bank.exercises]
    on_paper = {exercise.name for _, exercise in chosen if needs_paper(exercise)}
    assert on_paper == {e.name for _, e in chosen if e.drawing and DRAWING_KINDS[e.drawing.kind].to_draw_in} != set()
    kinds = practice_kinds(chosen, [space_of(*pair) for pair in chosen], notes, 2)
    layouts = {kind.exercise.name: set(kind_data(kind)["variants"][0].get("drawing", {})) for kind in kinds}
    assert {name for name, shown in layouts.items() if shown == {"wide"}} == on_paper
    assert {tuple(k.arguments) + tuple(k.optional) for k in DRAWING_KINDS.values() if k.to_draw_in} == {()}
