"""Many exercises proved: the same in one process or two, and nothing is done with a bank that fails."""

from __future__ import annotations

import pytest

from courseware.banks import Bank, raw_size, read_bank
from courseware.workflows.proving import ProofsFailed, first_failures, prove_all, prove_chosen, proved
from tests.workflows.conftest import Heard

BANK = """\
topic: Piers
aim: Set out piers
exercises:
  - name: pier
    level: 1
    given: {bricks: 3 to 40}
    pose: A pier of {{ bricks }} bricks.
    parts:
      - name: long
        ask: How long?
        answer: pier(bricks)
        unit: mm
        marks: 1
        working: [{say: Less a joint, value: bricks * module - joint}]
  - name: opening
    level: 1
    given: {bricks: 3 to 40, courses: 4 to 24}
    pose: An opening of {{ bricks }} bricks by {{ courses }} courses.
    parts:
      - name: wide
        ask: How wide?
        answer: opening(bricks)
        unit: mm
        marks: 1
        working: [{say: A joint more, value: bricks * module + joint}]
      - name: high
        ask: How high?
        answer: clear_height(courses)
        unit: mm
        marks: 1
        working: [{say: A bed more, value: courses * course + joint}]
"""


def chosen(text: str = BANK) -> list[tuple[Bank, object]]:
    bank = read_bank(text.encode(), "piers.yaml")
    return [(bank, exercise) for exercise in bank.exercises]


@pytest.fixture(params=[1, 2])
def processes(request, monkeypatch) -> int:
    """One process, or two even for so little work."""
    monkeypatch.setattr("courseware.workflows.proving._WORTH_A_POOL", 0)
    return request.param


def test_proofs_come_in_the_order_asked_with_every_variant_told(processes: int) -> None:
    """The second exercise has more variants, and is begun first where there are two processes."""
    asked, told = chosen(), []
    proofs = prove_all(asked, processes, told.append)
    assert [proof.space.exercise.name for proof in proofs] == ["pier", "opening"]
    assert [proof.walked for proof in proofs] == [38, 38 * 21]
    assert sum(told) == sum(raw_size(exercise) for _, exercise in asked) == 38 + 38 * 21
    assert all(len(proof.space) and proof.failure is None for proof in proofs)


def test_two_processes_find_what_one_finds(monkeypatch) -> None:
    monkeypatch.setattr("courseware.workflows.proving._WORTH_A_POOL", 0)
    one, two = (prove_all(chosen(), processes, lambda _: None) for processes in (1, 2))
    for alone, apart in zip(one, two, strict=True):
        assert list(alone.space.indices) == list(apart.space.indices)
        assert (alone.left_out, alone.ranges) == (apart.left_out, apart.ranges)


def test_an_exercise_that_fails_stops_what_was_to_be_done(processes: int, heard: Heard) -> None:
    wrong = chosen(BANK.replace("bricks * module - joint", "bricks * module"))
    with pytest.raises(ProofsFailed) as failed:
        proved(wrong, processes, "is not issued", heard)
    assert failed.value.refused == "is not issued"
    [(exercise, failure)] = failed.value.failures
    assert exercise.name == "pier"
    assert failure
    assert list(first_failures(prove_chosen(wrong, processes, heard))) == [(exercise, failure)]


def test_who_looks_on_is_told_how_far_it_is(heard: Heard) -> None:
    assert len(prove_chosen(chosen(), 1, heard)) == 2
    assert heard.work == {"Proving variants": (38 + 38 * 21, 38 + 38 * 21)}
