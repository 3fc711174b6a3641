"""A bank of one exercise on piers, as a tutor writes it, and the practice that is made of it."""

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
def piers_bank(tmp_path: Path):
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
