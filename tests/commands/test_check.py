"""`courseware check`: every variant proved, and every fault told at once."""

from __future__ import annotations

from pathlib import Path

from tests.commands.conftest import BANK, run


def test_check_proves_every_shipped_bank() -> None:
    done = run("check")
    assert done.exit_code == 0
    assert "exercises proved" in done.output.splitlines()[-1]
    assert "FAILED" not in done.output


def test_check_takes_a_bank_it_was_not_written_for(desk) -> None:
    done = run("check", "piers.yaml")
    assert done.exit_code == 0
    assert done.output.splitlines() == [
        "piers.yaml: Piers",
        "  pier-length (level 1): 5 variants, none for practice",
        "    not practised: that takes 12 variants or more; give its givens more values",
        "    length: 1115 to 2015 mm; 1 slip",  # 5 and 9 bricks: Technical Information Sheet 9, Table 1, "CO - Joint"
        "    left out: 3 of another difficulty (digits, halves or rounding)",
        "all 1 exercises proved: 8 variants walked, 5 in the spaces.",
    ]


def test_a_proof_that_fails_names_the_variant_and_its_figures(desk) -> None:
    Path("wrong.yaml").write_text(
        BANK.replace("bricks * module - joint", "bricks * module - 2 * joint"), encoding="utf-8"
    )
    done = run("check", "wrong.yaml")
    assert done.exit_code == 1
    assert "wrong.yaml:4: pier-length, variant 0 (bricks = 2): " in done.output
    assert "440" in done.output
    assert "430" in done.output
    assert run("issue", "wrong.yaml", "--learners", "2").exit_code == 1
    assert not Path("output").exists()


def test_every_fault_of_a_bank_is_told_at_once_with_its_place(desk) -> None:
    faulty = BANK.replace("level: 1", "levle: 1").replace("pier(bricks)", "peir(bricks)")
    Path("faulty.yaml").write_text(faulty, encoding="utf-8")
    done = run("check", "faulty.yaml")
    assert done.exit_code == 2
    first, second, count = done.output.splitlines()
    assert first.startswith("faulty.yaml:5:5: the key `levle` is not known; did you mean `level`?")
    assert second.startswith("faulty.yaml:11:17: there is no function `peir`; did you mean `pier`?")
    assert count == "2 faults found; nothing was made."
