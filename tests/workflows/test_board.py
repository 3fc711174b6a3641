"""A marked sitting's whiteboard: the exercises of the class picture's slips, commonest first, with its own starters."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from courseware.database.opening import open_record
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import Script
from courseware.marking.script_sheet import Scripts
from courseware.papers.compose import compose_key
from courseware.papers.sitting_file import write_sitting
from courseware.papers.unused_variants import CannotDeal
from courseware.printing.workers import sitting_in
from courseware.workflows.board import board_of_sitting
from courseware.workflows.marking import enter_and_mark
from courseware.workflows.starters import fresh_spaces, starter_questions

WHEN = datetime(2026, 1, 6, 9, 30, tzinfo=UTC)


class Told:
    """A watch that keeps its notes."""

    def __init__(self) -> None:
        self.notes: list[str] = []

    def note(self, text: str) -> None:
        self.notes.append(text)


@pytest.fixture
def class_with_slips(tmp_path: Path, dealt):
    """All three of the class make the first slip of their first part that has one, two that of the next such part."""
    sitting = dealt("opening_sizes", exercises=3)
    where = SittingFolder(path=tmp_path, text=write_sitting(sitting), sitting=sitting)
    _, sources = sitting_in(where.text)
    scripts, labels = [], []
    for place, paper in enumerate(sitting.papers):
        answers = [a for e in compose_key(sitting, place, sources).exercises for own in e.answers for a in own]
        slips = {a.label: a.slips[0].figure.split(" ")[0] for a in answers if a.slips and a.working}
        first = next(label for label in slips if label.startswith("1"))
        last = [label for label in slips if label.startswith("3")][-1]
        labels = [first, last]
        cells = {first: slips[first]} | ({last: slips[last]} if place else {})
        scripts.append(Script(code=paper.code, cells={**dict.fromkeys((a.label for a in answers), ""), **cells}, line=place + 2))  # fmt: skip
    engine = open_record(f"sqlite:///{tmp_path}/record.sqlite")
    sheet = Scripts(scripts=tuple(scripts), decisions=(), notes=())
    enter_and_mark(engine, where, sheet, (), assessor="J. Marsh", role="first", source="sheet", at=WHEN)
    yield engine, where, labels
    engine.dispose()


def test_the_commonest_slip_comes_first_with_the_starter_of_the_class_picture(class_with_slips) -> None:
    engine, where, (first, last) = class_with_slips
    sitting, sources = sitting_in(where.text)
    made = board_of_sitting(engine, where, 1, Told())
    numbers = [screen.heading.split(" ")[0] for screen in made.screens[1:] if screen.level == 1]
    assert numbers == ["1", "3"]
    talk = {screen.heading: screen.lines[0].says for screen in made.screens if screen.heading.endswith("to talk about")}
    assert "(seen on 3 of 3 papers)" in talk[f"Part {first}: to talk about"]
    assert "(seen on 2 of 3 papers)" in talk[f"Part {last}: to talk about"]
    issued = sitting.papers[0].exercises
    names = [(one.topic, one.exercise) for one in issued]
    questions = starter_questions(sitting, sources, fresh_spaces(sources, names, 1))
    said = " ".join(line.says for screen in made.screens for line in screen.lines)
    for one in (issued[0], issued[2]):
        fresh, key = questions[one.exercise]
        assert key.asked.pose in said
        assert fresh.given not in [other.given for paper in sitting.papers for other in paper.exercises]
    assert questions[issued[1].exercise][1].asked.pose not in said


def test_no_name_and_no_code_of_a_learner_stands_on_it(class_with_slips) -> None:
    """The class sees it."""
    engine, where, _ = class_with_slips
    made = board_of_sitting(engine, where, 1, Told())
    said = " ".join([made.title, *(line.says for screen in made.screens for line in screen.lines)])
    for paper in where.sitting.papers:
        assert paper.learner.name not in said
        assert paper.code not in said


def test_a_sitting_that_nobody_has_marked_is_refused(tmp_path: Path, dealt) -> None:
    sitting = dealt("opening_sizes", exercises=3)
    where = SittingFolder(path=tmp_path, text=write_sitting(sitting), sitting=sitting)
    engine = open_record(f"sqlite:///{tmp_path}/record.sqlite")
    enter_and_mark(
        engine, where, Scripts(scripts=(), decisions=(), notes=()), (),
        assessor="J. Marsh", role="first", source="sheet", at=WHEN,
    )  # fmt: skip
    with pytest.raises(CannotDeal, match="is marked yet"):
        board_of_sitting(engine, where, 1, Told())
    engine.dispose()
