"""Practice made: proved first, of variants that no paper is dealt."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from courseware.cli import main

BANK = """
topic: Piers
aim: Set out piers
exercises:
  - name: pier
    level: %d
    given: {bricks: 3 to %d}
    pose: A pier of {{ bricks }} bricks.
    parts:
      - name: long
        ask: How long?
        answer: pier(bricks)
        unit: mm
        marks: 1
        working: [{say: Less a joint, value: %s}]
        slips: [{value: bricks * module, says: As many joints as bricks}]
"""


@pytest.fixture
def bank(tmp_path: Path):
    def write(*, level: int = 1, most: int = 40, working: str = "bricks * module - joint") -> str:
        file = tmp_path / "piers.yaml"
        file.write_text(BANK % (level, most, working), encoding="utf-8")
        return str(file)

    return write


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["practise", *arguments])


def kinds(file: Path) -> list[dict[str, object]]:
    found = re.search(r'id="index">(.*?)</script>', file.read_text(encoding="utf-8"))
    assert found
    return json.loads(found[1])["kinds"]


def test_the_same_bank_makes_the_same_bytes(bank, tmp_path: Path) -> None:
    one, other = tmp_path / "one.html", tmp_path / "other.html"
    assert run(bank(), "--out", str(one)).exit_code == run(bank(), "--out", str(other)).exit_code == 0
    assert one.read_bytes() == other.read_bytes()


def test_a_bank_that_fails_its_proof_makes_no_page(bank, tmp_path: Path) -> None:
    made = run(bank(working="bricks * module"), "--out", str(tmp_path / "practice.html"))
    assert made.exit_code == 1
    assert "nothing was made" in made.output
    assert not (tmp_path / "practice.html").exists()


def test_an_exercise_too_small_to_share_is_kept_for_papers_and_named(bank, tmp_path: Path) -> None:
    made = run(bank(most=8), "--out", str(tmp_path / "practice.html"))
    assert "pier has 4 variants, all kept for papers" in made.output  # 5 to 8 bricks: lengths of four figures
    assert not (tmp_path / "practice.html").exists()


def test_a_job_brings_the_kinds_that_its_own_figures_fit(tmp_path: Path) -> None:
    file = tmp_path / "practice.html"
    made = run("--job", "porch-panel", "--out", str(file))
    assert made.exit_code == 0, made.output
    assert {kind["topic"] for kind in kinds(file)} == {"The figures of the job"}
