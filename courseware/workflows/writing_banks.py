"""A bank while it is written: its faults, its proof, and a paper with its key as they would print, saved or not."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from courseware import __version__
from courseware.banks import Bank, BankFaulty, Exercise, Fault, SafetyNotes, Space, harmless, prove, raw_size
from courseware.banks.figures import DoesNotWriteOut, Figure, exact_text, write_out
from courseware.files.bank_files import bank_in
from courseware.papers.unused_variants import CannotDeal
from courseware.settings.settings import Settings
from courseware.workflows.in_a_child import in_a_child
from courseware.workflows.watch import Tell, Watch

if TYPE_CHECKING:
    from courseware.papers.sitting import Sitting

PROOF_SECONDS, SHEET_SECONDS = 300.0, 60.0
_TRIES = 500  # variants that are looked at for one that may be issued


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What a text is read as: the bank, or its faults."""

    bank: Bank | None
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofLine:
    """What the proof of one exercise showed. `failed` is '' where it passes, else what its first bad variant showed."""

    exercise: str
    line: int
    level: int
    variants: int
    walked: int
    ranges: Mapping[str, tuple[str, str]]  # least and greatest answer by part
    left_out: Mapping[str, int]
    failed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleSheets:
    """One exercise as it would print: PDFs, and each page as a PNG."""

    paper: bytes
    key: bytes
    paper_pages: tuple[bytes, ...]
    key_pages: tuple[bytes, ...]


def look_at(text: str, path: Path, settings: Settings) -> Looked:
    """Reads a text as the bank that would stand at `path`."""
    try:
        bank, _ = bank_in(text.encode("utf-8", "replace"), path, settings)
    except BankFaulty as faulty:
        return Looked(bank=None, faults=faulty.faults)
    return Looked(bank=bank, faults=())


def prove_text(
    text: str, path: Path, settings: Settings, watch: Watch, *, seconds: float = PROOF_SECONDS
) -> tuple[ProofLine, ...]:
    """The proof of every exercise of a text, in a process of its own. Raises `BankFaulty` and `TookTooLong`."""
    bank, _ = bank_in(text.encode(), path, settings)
    too_long = (
        f"the proof took longer than {seconds:.0f} seconds and was ended; narrow the ranges under `given`, or let "
        "`courseware check` prove it, which has no such limit"
    )
    with watch.progress("Proving variants", sum(raw_size(exercise) for exercise in bank.exercises)) as tell:
        return in_a_child(_prove, (text, path, settings), seconds=seconds, tell=tell, too_long=too_long)


def sample_sheets(
    text: str, path: Path, exercise: str, settings: Settings, date: str, watch: Watch, *, seconds: float = SHEET_SECONDS
) -> SampleSheets:
    """One exercise of a text on paper with its key, for a variant chosen by chance, in a process of its own.

    The variant is proved, though not the exercise. Raises `BankFaulty`, `CannotDeal` and `TookTooLong`.
    """
    bank_in(text.encode(), path, settings)  # a faulty text is told before a process starts
    seed = secrets.token_hex(32)
    too_long = f"setting this exercise took longer than {seconds:.0f} seconds and was ended; shorten its words"
    with watch.progress("Setting a paper and its key", 1) as tell:
        found = in_a_child(
            _sheets, (text, path, exercise, settings, date, seed), seconds=seconds, tell=tell, too_long=too_long
        )
    if isinstance(found, str):
        raise CannotDeal(found)
    return found


def _prove(text: str, path: Path, settings: Settings, tell: Tell) -> tuple[ProofLine, ...]:
    bank, _ = bank_in(text.encode(), path, settings)
    return tuple(_line(exercise, tell) for exercise in bank.exercises)


def _line(exercise: Exercise, tell: Tell) -> ProofLine:
    proof = prove(exercise, tell)
    failed = proof.failure
    return ProofLine(
        exercise=exercise.name,
        line=exercise.line,
        level=exercise.level,
        variants=len(proof.space),
        walked=proof.walked,
        ranges={name: (_written(low), _written(high)) for name, (low, high) in proof.ranges.items()},
        left_out=dict(sorted(proof.left_out.items())),
        failed=f"variant {failed.raw} ({failed.given}): {failed.why}" if failed else "",
    )


def _written(figure: Figure) -> str:
    try:
        return write_out(Fraction(figure))
    except DoesNotWriteOut:
        return exact_text(figure)


def _sheets(
    text: str, path: Path, named: str, settings: Settings, date: str, seed: str, tell: Tell
) -> SampleSheets | str:
    """The sheets, or in a line why there are none."""
    from courseware.papers.compose import compose_key, compose_paper, read_sources
    from courseware.papers.key_secrets import secrets as hidden_in
    from courseware.printing.leak_check import Leak, release
    from courseware.printing.rasters import page_images
    from courseware.printing.render import key_pdf, margin_words, paper_pdf

    bank, notes = bank_in(text.encode(), path, settings)
    exercise = next((one for one in bank.exercises if one.name == named), None)
    if exercise is None:
        return f"no exercise is named {harmless(named)}"
    sitting = sample_sitting(bank, notes, exercise, date, seed)
    if isinstance(sitting, str):
        return sitting
    sources = read_sources(sitting)
    paper, key = compose_paper(sitting, 0, sources), compose_key(sitting, 0, sources)
    try:
        printed = release(paper_pdf(paper), hidden_in(paper, key, margin_words(paper)))
    except Leak as leak:
        return f"{exercise.name} gives its answer away: {leak}"
    with_key = key_pdf(key)
    return SampleSheets(paper=printed, key=with_key, paper_pages=page_images(printed), key_pages=page_images(with_key))


def sample_sitting(bank: Bank, notes: SafetyNotes | None, exercise: Exercise, date: str, seed: str) -> Sitting | str:
    """A sitting of one numbered paper with this exercise alone; or in a line why no variant of it may be issued."""
    from courseware.banks.formulas import FormulaImpossible
    from courseware.banks.space import given_at
    from courseware.banks.variant_proof import Fails, LeftOut, asked_once, formulas_in_words, prove_variant
    from courseware.papers.codes import keyed
    from courseware.papers.deal import Heads, deal_sitting
    from courseware.papers.group import numbered
    from courseware.trade import TradeError

    size, wordings, writes_out, why = raw_size(exercise), formulas_in_words(exercise), asked_once(), ""
    start = keyed(seed, "sample", exercise.name) % size
    for turn in range(min(size, _TRIES)):
        raw = (start + turn) % size
        try:
            prove_variant(exercise, given_at(exercise, raw), wordings, writes_out)
        except (LeftOut, Fails, FormulaImpossible, TradeError) as reason:
            why = why or str(reason)
            continue
        heads = Heads(title=bank.topic, date=date, group=numbered(1), seed=seed, version=__version__)
        return deal_sitting(heads, (bank,), notes, ((bank, exercise),), [Space(exercise=exercise, indices=[raw])])
    return f"none of {min(size, _TRIES)} variants of {exercise.name} may be issued: {why}"
