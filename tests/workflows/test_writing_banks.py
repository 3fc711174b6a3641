"""A bank while it is written: faults by line, a proof that can be ended, a paper and a key as they would print."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from courseware.banks import BankFaulty, read_bank
from courseware.banks.solve import solve
from courseware.papers.unused_variants import CannotDeal
from courseware.settings.settings import DEFAULTS
from courseware.workflows.in_a_child import TookTooLong
from courseware.workflows.own_banks import NEW_BANK
from courseware.workflows.writing_banks import look_at, prove_text, sample_sheets, sample_sitting
from tests.workflows.conftest import Heard

FILE = Path("own.yaml")


def test_a_text_is_read_with_every_fault_at_its_place() -> None:
    assert look_at(NEW_BANK, FILE, DEFAULTS).bank
    found = look_at(NEW_BANK.replace("level: 1", "level: 9").replace("pier(bricks)", "peir(bricks)"), FILE, DEFAULTS)
    assert found.bank is None
    assert [fault.line for fault in found.faults] == [6, 12]
    assert look_at("\ud800", FILE, DEFAULTS).faults


def test_a_safety_note_that_is_not_there_is_a_fault_like_any_other(tmp_path: Path) -> None:
    text = NEW_BANK.replace("exercises:", "safety: [cutting, ghosts]\nexercises:")
    [fault] = look_at(text, FILE, DEFAULTS).faults
    assert "ghosts" in fault.wrong
    (tmp_path / "safety_notes.yaml").write_text(
        "safety_notes:\n  - {name: cutting, title: Cutting, lines: [Wear goggles]}\n  - {name: ghosts, title: G, lines: [Boo]}\n",
        encoding="utf-8",
    )
    assert look_at(text, tmp_path / "own.yaml", DEFAULTS).bank


def test_a_proof_says_of_each_exercise_what_it_showed(heard: Heard) -> None:
    [line] = prove_text(NEW_BANK, FILE, DEFAULTS, heard)
    assert (line.exercise, line.line, line.variants, line.walked, line.failed) == ("length-of-a-pier", 5, 36, 36, "")
    assert line.ranges == {"long": ("1115", "8990")}  # 5 and 40 bricks of 225 mm, less a joint: Sheet 9, CO - Joint
    assert heard.work == {"Proving variants": (36, 36)}


def test_a_proof_that_fails_names_the_variant(heard: Heard) -> None:
    [line] = prove_text(NEW_BANK.replace("bricks * module - joint", "bricks * module"), FILE, DEFAULTS, heard)
    assert line.failed.startswith("variant 0 (bricks = 5): long: `answer` gives 1115")
    with pytest.raises(BankFaulty):
        prove_text("topic: x\n", FILE, DEFAULTS, heard)


def test_a_proof_that_takes_too_long_is_ended(heard: Heard) -> None:
    text = NEW_BANK.replace("{bricks: 5 to 40}", "{bricks: 5 to 204, more: 1 to 1000}")
    with pytest.raises(TookTooLong, match="narrow the ranges under `given`"):
        prove_text(text, FILE, DEFAULTS, heard, seconds=0.5)


def test_an_exercise_is_set_on_paper_with_its_key(heard: Heard) -> None:
    found = sample_sheets(NEW_BANK, FILE, "length-of-a-pier", DEFAULTS, "2026-01-05", heard)
    assert found.paper.startswith(b"%PDF-")
    assert found.key.startswith(b"%PDF-")
    for page in (*found.paper_pages, *found.key_pages):
        assert page.startswith(b"\x89PNG\r\n")
    with pytest.raises(CannotDeal, match="no exercise is named other"):
        sample_sheets(NEW_BANK, FILE, "other", DEFAULTS, "2026-01-05", heard)


def test_a_sample_is_a_variant_that_may_be_issued() -> None:
    """Of 200 odd and even numbers of bricks half are left out by `where`."""
    text = NEW_BANK.replace("    pose:", "    where: bricks % 2 == 0\n    pose:")
    bank = read_bank(text.encode(), "own.yaml")
    [exercise] = bank.exercises
    for seed in ("a", "b", "c"):
        sitting = sample_sitting(bank, None, exercise, "2026-01-05", seed)
        [issued] = sitting.papers[0].exercises
        bricks = Fraction(issued.given["bricks"])
        assert bricks % 2 == 0
        [part] = solve(exercise, {"bricks": int(bricks)})
        assert part.numbers[0].answer == bricks * 225 - 10
    nothing = read_bank(text.replace("% 2 == 0", "< 5").encode(), "own.yaml")
    assert "none of 36 variants" in sample_sitting(nothing, None, nothing.exercises[0], "2026-01-05", "a")
