"""Each shipped exercise is proved once a run of the tests: whichever process proves it first keeps the proof for all.

Banks that a test writes itself, and what `courseware.banks.prove` is asked directly, are proved as they stand.
"""

from __future__ import annotations

import os
import pickle
from collections.abc import Callable, Iterator, Sequence
from hashlib import sha256
from pathlib import Path

import pytest

from courseware.banks import Bank, Exercise, Proof, Space, raw_size
from courseware.files.bank_files import shipped_banks
from courseware.workflows import proving, starters


class KeptProofs:
    """The proofs of shipped exercises that passed, by bank, settings and name, in a folder that processes share."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._shipped = {sha256(path.read_bytes()).hexdigest() for path in shipped_banks()}
        self._prove_all = proving.prove_all

    def prove_all(
        self, chosen: Sequence[tuple[Bank, Exercise]], processes: int, tell: Callable[[int], None]
    ) -> tuple[Proof, ...]:
        """As `proving.prove_all`, but proves alone what was not proved before."""
        known = [self._found(*pair) for pair in chosen]
        wanted = [pair for pair, proof in zip(chosen, known, strict=True) if proof is None]
        tell(sum(raw_size(proof.space.exercise) for proof in known if proof))
        fresh = self._prove_all(wanted, processes, tell)
        for pair, proof in zip(wanted, fresh, strict=True):
            self._keep(*pair, proof)
        left = iter(fresh)
        return tuple(proof or next(left) for proof in known)

    def space(self, bank: Bank, exercise: Exercise) -> Space:
        """The space of an exercise that passes its proof."""
        [proof] = self.prove_all([(bank, exercise)], 1, lambda _: None)
        return proof.space

    def _found(self, bank: Bank, exercise: Exercise) -> Proof | None:
        file = self._file(bank, exercise)
        if not file.exists():
            return None
        indices, walked, left_out, ranges = pickle.loads(file.read_bytes())
        space = Space(exercise=exercise, indices=indices)
        return Proof(space=space, walked=walked, left_out=left_out, ranges=ranges, failure=None)

    def _keep(self, bank: Bank, exercise: Exercise, proof: Proof) -> None:
        if proof.failure is None and bank.sha256 in self._shipped:
            file = self._file(bank, exercise)
            begun = file.with_suffix(f".{os.getpid()}")
            begun.write_bytes(pickle.dumps((proof.space.indices, proof.walked, proof.left_out, proof.ranges)))
            begun.replace(file)

    def _file(self, bank: Bank, exercise: Exercise) -> Path:
        return self._folder / sha256(repr((bank.sha256, bank.settings, exercise.name)).encode()).hexdigest()


@pytest.fixture(scope="session", autouse=True)
def proofs(tmp_path_factory: pytest.TempPathFactory) -> Iterator[KeptProofs]:
    own = tmp_path_factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "proofs"
    folder.mkdir(exist_ok=True)
    kept = KeptProofs(folder)
    with pytest.MonkeyPatch.context() as patch:
        for module in (proving, starters):
            patch.setattr(module, "prove_all", kept.prove_all)
        yield kept
