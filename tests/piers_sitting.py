"""A sitting on piers, issued to a class of four, with sheets filled in for it and the marks that come of them."""

from __future__ import annotations

import csv
import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from courseware.cli import main
from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.database.sittings import sittings

GROUP = "reference,name\nA1,Amara Okafor\nA2,Łukasz Wójcik\nA3,Zoë O'Brien-Smythe\nA4,=1+1\n"  # invented

BANK = """\
topic: Piers
aim: Work out the length of a pier and the bricks in it
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 5 to 44}
    pose: A pier is {{ bricks }} bricks long and 10 courses high.
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
      - name: twice
        ask: How long are two of them, end to end, with a joint between?
        answer: 2 * length + joint
        unit: mm
        marks: 1
        working:
          - {say: "Twice the length and a joint", value: length + joint + length}
"""


@pytest.fixture(scope="session")
def issued_piers(tmp_path_factory) -> Path:
    """The folder that `piers_sitting` is a copy of: look, do not touch."""
    folder: Path = tmp_path_factory.mktemp("piers")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        patch.delenv("COURSEWARE_RECORD", raising=False)
        Path("group-a.csv").write_text(GROUP, encoding="utf-8")
        Path("piers.yaml").write_text(BANK, encoding="utf-8")
        issued = run("issue", "piers.yaml", "--group", "group-a.csv", "--date", "2026-01-05", "--jobs", "1")
        assert issued.exit_code == 0, issued.output
    return folder


@pytest.fixture
def piers_sitting(issued_piers, tmp_path, monkeypatch) -> Path:
    """A sitting just issued, in a fresh folder."""
    return copy_of(issued_piers, tmp_path, monkeypatch)


def copy_of(made: Path, own: Path, patch: pytest.MonkeyPatch) -> Path:
    """The one sitting of a folder of work that is copied to `own`, which becomes the folder that commands run in."""
    shutil.copytree(made, own, dirs_exist_ok=True)
    patch.chdir(own)
    patch.delenv("COURSEWARE_RECORD", raising=False)
    [folder] = Path("output").glob("2026*")
    return folder


def papers(folder: Path) -> list[dict]:
    return json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["papers"]


def answer(paper: dict, label: str) -> str:
    return next(p["answer"] for e in paper["exercises"] for p in e["parts"] if p["label"] == label)


def fill(folder: Path, name: str, *rows: dict[str, str]) -> str:
    """A CSV sheet beside the sitting: a row a paper in order, unless it has its own code."""
    with Path(name).open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, ["code", "status", "1a", "1b"])
        writer.writeheader()
        for paper, row in zip(papers(folder), rows, strict=False):
            writer.writerow({"code": paper["code"], **row})
    return name


def kept(role: str = "first") -> dict[str, list[tuple[str, int, str]]]:
    """The marks that the record holds now: by paper, label, marks and how."""
    engine = open_record("sqlite:///output/record.sqlite")
    codes = [code["code"] for path in Path("output").glob("2026*") for code in papers(path)]
    [folder] = list(Path("output").glob("2026-01-05*"))
    code = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["sitting"]["code"]
    found = {p.code: [(m.label, m.marks, m.how) for m in p.marks] for p in marks_of(engine, code, role)}
    assert set(found) <= set(codes)
    engine.dispose()
    return found


def scripts_in() -> int:
    """How many papers the record has a script of."""
    engine = open_record("sqlite:///output/record.sqlite")
    found = sum(one.scripts for one in sittings(engine))
    engine.dispose()
    return found


def run(*words: str) -> Result:
    done = CliRunner().invoke(main, list(words))
    assert "Traceback" not in done.output
    if done.exception and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done
