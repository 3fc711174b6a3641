"""Proving many exercises, on more than one core where there is enough to prove."""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from courseware.banks import Bank, Exercise, Failure, Proof, Space, prove, raw_size, read_bank
from courseware.banks.figures import Figure
from courseware.printing.workers import each
from courseware.settings.settings import Settings
from courseware.workflows.watch import Watch

_WORTH_A_POOL = 20_000  # variants: under this a second process starts no sooner than one is done


@dataclass(frozen=True, slots=True, kw_only=True)
class _Task:
    """One exercise, as it travels to another process: the bank's text and the exercise's place in it."""

    index: int  # among those to prove
    file: str
    text: str
    place: int
    settings: Settings

    def __str__(self) -> str:
        return f"the proof of exercise {self.place + 1} of {self.file}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Travelling:
    """A proof without its exercise, whose formulas cannot leave their process."""

    indices: array[int]
    walked: int
    left_out: Mapping[str, int]
    ranges: Mapping[str, tuple[Figure, Figure]]
    failure: Failure | None


def prove_all(
    chosen: Sequence[tuple[Bank, Exercise]], processes: int, tell: Callable[[int], None]
) -> tuple[Proof, ...]:
    """The proof of each exercise, in order. `tell` hears how many more variants are done."""
    if processes < 2 or sum(raw_size(exercise) for _, exercise in chosen) < _WORTH_A_POOL:
        return tuple(prove(exercise, tell) for _, exercise in chosen)
    proofs: dict[int, Proof] = {}
    order = sorted(range(len(chosen)), key=lambda i: -raw_size(chosen[i][1]))
    tasks = [_task(index, *chosen[index]) for index in order]
    for task, found in each(_prove_task, None, tasks, processes, worth=2):
        exercise = chosen[task.index][1]
        proofs[task.index] = arrived(exercise, found)
        tell(raw_size(exercise))
    return tuple(proofs[index] for index in range(len(chosen)))


class ProofsFailed(Exception):
    """Exercises that failed their proofs; `refused` says what is not done for it."""

    def __init__(self, failures: Sequence[tuple[Exercise, Failure]], refused: str) -> None:
        super().__init__(refused)
        self.failures, self.refused = tuple(failures), refused


def prove_chosen(chosen: Sequence[tuple[Bank, Exercise]], processes: int, watch: Watch) -> tuple[Proof, ...]:
    """The proof of each exercise, in order."""
    with watch.progress("Proving variants", sum(raw_size(exercise) for _, exercise in chosen)) as tell:
        return prove_all(chosen, processes, tell)


def proved(chosen: Sequence[tuple[Bank, Exercise]], processes: int, refused: str, watch: Watch) -> tuple[Proof, ...]:
    """The proofs of exercises all of which pass. Raises `ProofsFailed`, which says what is `refused`."""
    proofs = prove_chosen(chosen, processes, watch)
    if failures := list(first_failures(proofs)):
        raise ProofsFailed(failures, refused)
    return proofs


def _task(index: int, bank: Bank, exercise: Exercise) -> _Task:
    place = bank.exercises.index(exercise)
    return _Task(index=index, file=bank.file, text=bank.text, place=place, settings=bank.settings)


def first_failures(proofs: Sequence[Proof]) -> Iterator[tuple[Exercise, Failure]]:
    """Each exercise whose proof failed, with the variant that showed it."""
    for proof in proofs:
        if proof.failure:
            yield proof.space.exercise, proof.failure


def _prove_task(_: None, task: _Task) -> Travelling:
    bank = read_bank(task.text.encode(), task.file, task.settings)
    return travelling(prove(bank.exercises[task.place]))


def travelling(proof: Proof) -> Travelling:
    """A proof made fit to leave its process."""
    return Travelling(
        indices=array("L", proof.space.indices),
        walked=proof.walked,
        left_out=dict(proof.left_out),
        ranges=dict(proof.ranges),
        failure=proof.failure,
    )


def arrived(exercise: Exercise, found: Travelling) -> Proof:
    """The proof of an exercise that came from another process."""
    return Proof(
        space=Space(exercise=exercise, indices=found.indices),
        walked=found.walked,
        left_out=found.left_out,
        ranges=found.ranges,
        failure=found.failure,
    )
