"""An exercise's proof while a page waits for it: that of many variants by a child, and for a while only."""

from __future__ import annotations

from array import array
from pathlib import Path

from courseware.banks import Exercise, Proof, Space, prove, raw_size
from courseware.banks.proof import Failure
from courseware.files.bank_files import read_banks
from courseware.settings.settings import Settings
from courseware.workflows.in_a_child import TookTooLong, in_a_child
from courseware.workflows.proving import Travelling, arrived, travelling
from courseware.workflows.watch import Tell

AT_ONCE = 10_000  # variants, which take some seconds; the shipped exercises have less
SECONDS = 20.0


def prove_in_time(
    exercise: Exercise, path: Path, settings: Settings, *, at_once: int = AT_ONCE, seconds: float = SECONDS
) -> Proof:
    """The proof of an exercise of the bank at `path`; failed where it takes longer than so many seconds.

    More variants than `at_once` are proved by a child, so that whoever else waits for this process is not held up.
    """
    if raw_size(exercise) <= at_once:
        return prove(exercise)
    too_long = f"their proof takes longer than {seconds:.0f} seconds; narrow the ranges under `given`"
    nothing = Space(exercise=exercise, indices=array("L"))
    try:
        found = in_a_child(
            _proof, (path, exercise.name, settings), seconds=seconds, tell=lambda _: None, too_long=too_long
        )
    except TookTooLong as late:
        failure = Failure(raw=0, given="all variants", why=str(late))
        return Proof(space=nothing, walked=0, left_out={}, ranges={}, failure=failure)
    return arrived(exercise, found)


def _proof(path: Path, name: str, settings: Settings, tell: Tell) -> Travelling:
    [bank], _ = read_banks([path], settings)
    [exercise] = [one for one in bank.exercises if one.name == name]
    return travelling(prove(exercise, tell))
