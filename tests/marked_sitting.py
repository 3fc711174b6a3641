"""A record with a marked sitting in it, and scripts to enter into it."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest

from courseware.banks.figures import write_out
from courseware.database.opening import open_record
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import Decision, Script
from courseware.marking.script_sheet import Scripts
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.workflows.marking import enter_and_mark

WHEN = datetime(2026, 1, 6, 9, 30, tzinfo=UTC)


@pytest.fixture
def place(tmp_path, monkeypatch, dealt) -> SittingFolder:
    """A record with one marked sitting: the first learner all right, the second with a wrong start, the third absent."""
    monkeypatch.chdir(tmp_path)
    sitting: Sitting = dealt("opening_sizes", exercises=3)
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
