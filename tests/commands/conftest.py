"""What the tests of commands share: a desk with a class list and a bank, a record with a marked sitting, the command line."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from courseware.cli import main
from courseware.papers.sitting import Sitting

CLASS = "Ref;Name\n0012;Amara Okafor\n0013;Łukasz Wójcik\n0014;Zoë O'Brien-Smythe\n0015;=1+1\n"  # invented

BANK = """\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 2 to 9}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        unit: mm
        marks: 2
        working:
          - {say: "Bricks and joints", value: bricks * module, earns: method}
          - {say: "One joint fewer", value: bricks * module - joint, earns: accuracy}
        slips:
          - {value: bricks * module, says: "The joint at the end was left on", earns: 1}
"""


@pytest.fixture
def desk(tmp_path, monkeypatch) -> Path:
    """A fresh folder with a class list and a bank in it."""
    monkeypatch.chdir(tmp_path)
    Path("group-a.csv").write_bytes(CLASS.encode("utf-8-sig"))
    Path("piers.yaml").write_text(BANK, encoding="utf-8")
    return tmp_path


def run(*words: object) -> Result:
    done = CliRunner().invoke(main, [str(word) for word in words])
    assert "Traceback" not in done.output
    if done.exception and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done


def only_folder(parent: Path) -> Path:
    [folder] = [path for path in parent.iterdir() if path.is_dir()]
    return folder


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def issue(*more: str) -> Path:
    done = run("issue", "piers.yaml", "--group", "group-a.csv", "--date", "2026-01-05", *more)
    assert done.exit_code == 0, done.output
    return only_folder(Path("output"))


@pytest.fixture
def sitting(dealt) -> Sitting:
    return dealt("opening_sizes", exercises=3)
