"""A proof that a page waits for: of a huge bank by a child, the same as at once, and ended when it takes long."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.banks import Exercise, prove
from courseware.files.bank_files import read_banks
from courseware.settings.settings import DEFAULTS
from courseware.workflows.proof_in_time import prove_in_time
from tests.bank_of_piers import BANK


def exercise_in(folder: Path, working: str) -> tuple[Exercise, Path]:
    path = folder / "piers.yaml"
    path.write_text(BANK % (1, 40, working), encoding="utf-8")
    [bank], _ = read_banks([path], DEFAULTS)
    return bank.exercises[0], path


@pytest.mark.parametrize("working", ["bricks * module - joint", "bricks * module"])
def test_a_child_proves_as_one_does_at_once_sound_or_faulty(tmp_path: Path, working: str) -> None:
    exercise, path = exercise_in(tmp_path, working)
    at_once, by_child = prove(exercise), prove_in_time(exercise, path, DEFAULTS, at_once=37)
    assert tuple(by_child.space.indices) == tuple(at_once.space.indices)
    assert by_child.space.exercise is exercise
    assert (by_child.failure, by_child.ranges, by_child.left_out, by_child.walked) == (
        at_once.failure, at_once.ranges, at_once.left_out, at_once.walked,
    )  # fmt: skip


def test_a_proof_that_takes_too_long_has_failed_and_says_what_to_do(tmp_path: Path) -> None:
    exercise, path = exercise_in(tmp_path, "bricks * module - joint")
    assert prove_in_time(exercise, path, DEFAULTS, at_once=38, seconds=0).failure is None, "38 variants are not more"
    late = prove_in_time(exercise, path, DEFAULTS, at_once=37, seconds=0)
    assert late.failure is not None
    assert "longer than 0 seconds; narrow the ranges under `given`" in late.failure.why
