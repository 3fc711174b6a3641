"""What the commands print: topics, proofs, failures."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from courseware.banks import Bank, Proof, SafetyNotes
from courseware.banks.figures import DoesNotWriteOut, Figure, exact_text, write_out
from courseware.papers.shares import ENOUGH, OF_A_MONTH, for_practice
from courseware.words import count


def list_topics(banks: Sequence[Bank], notes: SafetyNotes | None, paths: Sequence[Path]) -> None:
    """Each topic with its short name, aim and exercises by level."""
    for bank, path in zip(banks, paths, strict=True):
        click.echo(f"{path.stem}: {bank.topic}")
        click.echo(f"  {bank.aim}")
        for exercise in sorted(bank.exercises, key=lambda exercise: exercise.level):
            kind = "" if exercise.format.name == "UK metric" else f"  [{exercise.format.name}]"
            click.echo(f"  level {exercise.level}  {exercise.name}  ({exercise.marks} marks){kind}")
        click.echo()
    if notes:
        click.echo("Safety notes: " + ", ".join(f"{name} ({title})" for name, (title, _, _) in notes.notes.items()))


def report_proofs(banks: Sequence[Bank], proofs: Sequence[Proof]) -> None:
    """Per exercise: variants in the space, answers, slips, what was left out and why."""
    left = iter(proofs)
    for bank in banks:
        click.echo(f"{bank.file}: {bank.topic}")
        for exercise in bank.exercises:
            proof = next(left)
            practised = len(for_practice(proof.space))
            size = "FAILED" if proof.failure else f"{len(proof.space)} variants, {practised or 'none'} for practice"
            click.echo(f"  {exercise.name} (level {exercise.level}): {size}")
            if not proof.failure and practised < OF_A_MONTH:
                click.echo(f"    {_too_few(practised)}")
            for number in exercise.numbers:
                if number.name in proof.ranges:
                    low, high = (_figure(figure) for figure in proof.ranges[number.name])
                    span = low if low == high else f"{low} to {high}"
                    slips = count(len(number.slips), "slip")
                    click.echo(f"    {number.name}: {span} {number.unit}".rstrip() + f"; {slips}")
            for reason, variants in sorted(proof.left_out.items()):
                click.echo(f"    left out: {variants} {reason}")
    total = sum(len(proof.space) for proof in proofs)
    failed = sum(1 for proof in proofs if proof.failure)
    walked = sum(proof.walked for proof in proofs)
    verdict = f"{failed} of {len(proofs)} exercises FAILED" if failed else f"all {len(proofs)} exercises proved"
    click.echo(f"{verdict}: {walked} variants walked, {total} in the spaces.")


def _too_few(practised: int) -> str:
    """What fewer variants for practice than a month's mean, and what to do."""
    if not practised:
        return f"not practised: that takes {ENOUGH} variants or more; give its givens more values"
    return f"under {OF_A_MONTH}: in a month of daily practice figures come again; give its givens more values"


def _figure(figure: Figure) -> str:
    try:
        return write_out(figure)
    except DoesNotWriteOut:
        return exact_text(figure)
