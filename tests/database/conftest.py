"""A record in a fresh folder with one sitting taken in, and what is typed into it."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import Engine

from courseware.database.kept_marks import keep_marks
from courseware.database.opening import open_record
from courseware.database.scripts import enter_scripts
from courseware.database.sittings import take
from courseware.marking.marks import Mark, MarkedPaper, Script
from courseware.papers.group import Learner
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.papers.sitting_file import write_sitting
from tests.conftest import SERVER

MORNING = datetime(2026, 1, 5, 9, 0, tzinfo=UTC)
LEARNERS = (("Amara Okafor", "A-0012"), ("Łukasz Wójcik", "A-0013"), ("Zoë O'Brien-Smythe", ""))  # invented


@pytest.fixture
def later() -> Callable[[int], datetime]:
    """So many minutes after the sitting was taken in."""
    return lambda minutes: MORNING + timedelta(minutes=minutes)


@pytest.fixture
def written() -> Callable[..., Script]:
    """A script of a paper with these cells in the order of its parts; the others are blank."""

    def script(paper: IssuedPaper, *cells: str, status: str = "", line: int = 2) -> Script:
        texts = dict(zip(labels(paper), (*cells, *[""] * len(labels(paper))), strict=False))
        return Script(code=paper.code, cells=texts, status=status, line=line)

    return script


@pytest.fixture
def marked() -> Callable[..., MarkedPaper]:
    """A paper with each part marked the same."""

    def mark(paper: IssuedPaper, earned: int = 1, status: str = "", **more: object) -> MarkedPaper:
        said = {"how": "right", "why": "Right.", **more}
        marks = tuple(Mark(label=label, marks=earned, of=2, **said) for label in labels(paper))
        return MarkedPaper(code=paper.code, status=status, marks=marks)

    return mark


def labels(paper: IssuedPaper) -> list[str]:
    return [part.label for exercise in paper.exercises for part in exercise.parts]


@pytest.fixture(scope="session")
def sitting(dealt) -> Sitting:
    """A sitting of three learners, two of whom have references."""
    plain = dealt(exercises=2)
    people = [Learner(name=name, reference=reference) for name, reference in LEARNERS]
    papers = tuple(replace(paper, learner=learner) for paper, learner in zip(plain.papers, people, strict=True))
    return replace(plain, papers=papers)


@pytest.fixture(scope="session")
def other_sitting(dealt, sitting) -> Sitting:
    """Another sitting of the same learners."""
    plain = dealt(exercises=1, seed="another seed")
    people = [paper.learner for paper in sitting.papers]
    papers = tuple(replace(paper, learner=learner) for paper, learner in zip(plain.papers, people, strict=True))
    return replace(plain, papers=papers, title="Setting out again", date="2026-03-02")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """A test marked `each_database` runs on a server too."""
    if metafunc.definition.get_closest_marker("each_database"):
        metafunc.parametrize("database", ["sqlite", SERVER], indirect=True)


@pytest.fixture
def database(request, tmp_path) -> str:
    """The URL of a database without a record: SQLite, unless the test runs on each."""
    if getattr(request, "param", "") == SERVER:
        return request.getfixturevalue("postgresql")()
    return f"sqlite:///{tmp_path / 'record.sqlite'}"


@pytest.fixture(scope="session")
def taken_in(sitting, tmp_path_factory) -> bytes:
    """A SQLite record that holds the sitting."""
    file: Path = tmp_path_factory.mktemp("taken-in") / "record.sqlite"
    _with_sitting(f"sqlite:///{file}", sitting).dispose()
    return file.read_bytes()


@pytest.fixture
def record(database, sitting, taken_in, tmp_path) -> Iterator[Engine]:
    """A record that holds the sitting."""
    if database.startswith("sqlite"):
        (tmp_path / "record.sqlite").write_bytes(taken_in)
        engine = open_record(database)
    else:
        engine = _with_sitting(database, sitting)
    yield engine
    engine.dispose()


def _with_sitting(database: str, sitting: Sitting) -> Engine:
    engine = open_record(database)
    take(engine, sitting, write_sitting(sitting), at=MORNING)
    return engine


@pytest.fixture
def entered(record, sitting, later, written, marked):
    """A record with a script and its marks."""
    paper = sitting.papers[0]
    script = written(paper, "1", "2")
    as_typed = [replace(mark, written=script.cells[mark.label]) for mark in marked(paper).marks]
    enter_scripts(record, sitting.code, [script], [], assessor="J. Marsh", role="first", source="x.xlsx", at=later(1))
    keep_marks(
        record, sitting.code, [replace(marked(paper), marks=tuple(as_typed))], by="J. Marsh", role="first", at=later(2)
    )
    return record


def altered(folder: Path, change: str) -> None:
    """Changes a record with another program: one that keeps no references, as SQLite does unless it is told to."""
    other = sqlite3.connect(folder / "record.sqlite")
    other.executescript(change)
    other.close()
