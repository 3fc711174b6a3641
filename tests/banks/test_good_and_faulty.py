"""Whole banks: the good ones are told as they prove, the faulty ones with every message they bring.

Beside each bank stands the text expected of it. Refresh with `pytest tests/banks --refresh`, and read the diff.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from courseware.banks import BankFaulty, Exercise, Proof, prove, read_bank, solve
from courseware.banks.figures import exact_text
from courseware.banks.number_part import SolvedNumber
from courseware.banks.solve import scope_of
from courseware.part_kinds.choice.bank import SolvedChoice
from courseware.part_kinds.table.bank import SolvedTable

GOOD = sorted(Path(__file__).parent.glob("good/*.yaml"))
FAULTY = sorted(Path(__file__).parent.glob("faulty/*.yaml"))
SITE = {"place": "Brindlecombe", "street": "Larch Row", "client": "Mrs Ashdown"}  # invented


@pytest.mark.parametrize("path", GOOD, ids=lambda path: path.stem)
def test_a_good_bank_proves_as_told(path: Path, same_text) -> None:
    bank = read_bank(path.read_bytes(), path.name)
    told = [line for exercise in bank.exercises for line in telling(exercise, prove(exercise))]
    same_text(path.with_suffix(".txt"), "\n".join([f"{bank.topic}: {bank.aim}", *told]) + "\n")


def telling(exercise: Exercise, proof: Proof) -> Iterator[str]:
    """What a tutor would check: how large the space is, the range of each answer, and the first variant worked out."""
    assert proof.failure is None, proof.failure
    yield f"{exercise.name} (line {exercise.line}, level {exercise.level}, {exercise.format.name})"
    yield f"  {len(proof.space)} of {proof.walked} variants; left out: {dict(proof.left_out)}"
    yield from (f"  {part}: {exact_text(low)} to {exact_text(high)}" for part, (low, high) in proof.ranges.items())
    given = proof.space.variant(0)
    solved = solve(exercise, given)
    scope = scope_of(given, solved)
    yield from (f"  setting: {setting.render(scope, SITE)}" for setting in exercise.settings)
    yield f"  {exercise.pose.render(scope, SITE)}"
    for part in solved:
        yield f"  {part.part.name}: {part.part.ask.render(scope, SITE)} [{part.part.marks}]"
        match part:
            case SolvedNumber():
                yield f"    {figures(part)}"
            case SolvedTable(rows=rows):
                yield from (f"    {row.part.name}: {figures(row)}" for row in rows)
            case SolvedChoice(right=right):
                yield f"    right: {[c.say.render(scope, SITE) for c, r in zip(part.part.choices, right, strict=True) if r]}"
            case _:
                yield f"    {len(part.part.steps) if hasattr(part.part, 'steps') else len(part.part.points)} things"


def figures(number: SolvedNumber) -> str:
    working = [line if line is None else exact_text(line) for line in number.working]
    routes = [exact_text(figure) for figure in number.accept]
    slips = [exact_text(figure) for figure in number.slips]
    within = exact_text(number.within)
    return (
        f"{exact_text(number.answer)} {number.part.unit} ± {within}; accept {routes}; working {working}; slips {slips}"
    )


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_faulty_bank_tells_every_fault_at_once(path: Path, same_text) -> None:
    with pytest.raises(BankFaulty) as faulty:
        read_bank(path.read_bytes(), path.name)
    same_text(path.with_suffix(".txt"), f"{faulty.value}\n")


def test_every_kept_text_belongs_to_a_bank() -> None:
    kept = {path.with_suffix("") for path in Path(__file__).parent.glob("*/*.txt")}
    assert kept == {path.with_suffix("") for path in GOOD + FAULTY}
