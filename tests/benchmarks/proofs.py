"""Variants proved a second by one core, exercise by exercise.

python tests/benchmarks/proofs.py [BANK ...]
"""

from __future__ import annotations

import sys
import time

from courseware.banks import prove, raw_size
from courseware.files.bank_files import find_banks, read_banks, shipped_banks


def main(named: list[str]) -> None:
    """Prints the rate of each exercise, and of all."""
    banks, _ = read_banks(find_banks(named) if named else shipped_banks())
    walked = taken = 0.0
    for bank in banks:
        for exercise in bank.exercises:
            begun = time.perf_counter()
            prove(exercise)
            spent = time.perf_counter() - begun
            walked, taken = walked + raw_size(exercise), taken + spent
            print(
                f"{bank.topic:32} {exercise.name:34} {raw_size(exercise):7} {raw_size(exercise) / spent:9.0f} a second"
            )
    print(f"{walked:.0f} variants in {taken:.2f} s: {walked / taken:.0f} a second")


if __name__ == "__main__":
    main(sys.argv[1:])
