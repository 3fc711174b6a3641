"""What the tests of commands share: a desk with a class list and a bank, a record with a marked sitting, the command line."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from courseware.banks.figures import write_out
from courseware.cli import main
from courseware.database.opening import open_record
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import Decision, Script
from courseware.marking.script_sheet import Scripts
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.workflows.marking import enter_and_mark

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

WHEN = datetime(2026, 1, 6, 9, 30, tzinfo=UTC)


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


@pytest.fixture
def place(tmp_path, monkeypatch, sitting) -> SittingFolder:
    """A record with one marked sitting: the first learner all right, the second with a wrong start, the third absent."""
    monkeypatch.chdir(tmp_path)
    folder = Path("output", "sitting")
    folder.mkdir(parents=True)
    place = SittingFolder(path=folder, text=write_sitting(sitting), sitting=sitting)
    (folder / "sitting.json").write_text(place.text, encoding="utf-8")
    first, second, third = sitting.papers
    label = figure(first)
    away = Script(code=third.code, cells={}, status="absent", line=4)
    scripts = (script(first, 2), script(second, 3, **{f"_{label}": "7"}), away)
    decided = Decision(code=second.code, label=label, marks=1, reason="Łukasz Wójcik showed the working aloud")
    enter(place, scripts, (decided,), "J. Marsh", "first")
    return place


def parts(paper: IssuedPaper) -> list[IssuedPart]:
    return [part for exercise in paper.exercises for part in exercise.parts]


def figure(paper: IssuedPaper) -> str:
    """The label of the first part that asks for a figure."""
    return next(part.label for part in parts(paper) if part.kind == "number")


def right(part: IssuedPart) -> str:
    """The answer as a learner would write it."""
    return write_out(Fraction(part.answer)) if part.kind in {"number", "table"} else part.answer or "all"


def script(paper: IssuedPaper, line: int, **other: str) -> Script:
    """A script with every answer right but those given otherwise, by label with a leading underscore."""
    cells = {part.label: other.get(f"_{part.label}", right(part)) for part in parts(paper)}
    return Script(code=paper.code, cells=cells, line=line)


def enter(
    place: SittingFolder, scripts: tuple[Script, ...], decisions: tuple[Decision, ...], who: str, role: str
) -> None:
    engine = open_record("sqlite:///output/record.sqlite")
    sheet = Scripts(scripts=scripts, decisions=decisions, notes=())
    enter_and_mark(engine, place, sheet, (), assessor=who, role=role, source="marking-sheet.xlsx", at=WHEN)
    engine.dispose()
