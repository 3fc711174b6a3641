"""The distance travelled, from marks in a record to the files it is written to."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from courseware.class_report.distance import CannotCompare
from courseware.database.opening import open_record
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.compose import issued_from, read_sources
from courseware.papers.deal import Heads, deal_sitting
from courseware.papers.group import Group
from courseware.papers.sitting_file import write_sitting
from courseware.settings.settings import Settings
from courseware.workflows.distance import travelled
from tests.marked_sitting import enter, script


@pytest.fixture
def later(place: SittingFolder, space_of) -> SittingFolder:
    """The same exercises, dealt again half a year later to the same learners, of whom the first two write all right."""
    first = place.sitting
    sources = read_sources(first)
    chosen = [issued_from(exercise, sources) for exercise in first.papers[0].exercises]
    group = Group(name=first.group, learners=tuple(paper.learner for paper in first.papers))
    heads = Heads(title=first.title, date="2026-07-06", group=group, seed="half a year later", version="0")
    banks = list({bank.sha256: bank for bank, _ in chosen}.values())
    sitting = replace(
        deal_sitting(heads, banks, sources.safety, chosen, [space_of(*pair) for pair in chosen]), banks=first.banks
    )
    folder = Path("output", "later")
    folder.mkdir()
    found = SittingFolder(path=folder, text=write_sitting(sitting), sitting=sitting)
    (folder / "sitting.json").write_text(found.text, encoding="utf-8")
    enter(
        found, tuple(script(paper, line) for line, paper in enumerate(sitting.papers[:2], 2)), (), "J. Marsh", "first"
    )
    return found


def test_the_class_s_two_sittings_are_set_side_by_side_and_written(place, later) -> None:
    """The first was all right for one, wrong in one part for the other; the second all right for both."""
    engine = open_record("sqlite:///output/record.sqlite")
    codes = [later.sitting.code, place.sitting.code]
    made = travelled(engine, codes, Settings(), out=Path("output"), day="2026-07-07")
    [found] = made.found
    assert (found.start.code, found.end.code, found.both) == (place.sitting.code, later.sitting.code, 2)
    changes = [outcome.change.value for outcome in found.outcomes]
    assert max(changes) > 0
    assert min(changes) >= 0
    assert [file.name for file in made.files] == [f"distance-travelled-2026-07-07.{end}" for end in ("pdf", "xlsx")]
    with pytest.raises(CannotCompare):
        travelled(engine, codes[:1], Settings(), out=Path("output"), day="2026-07-07")
    engine.dispose()
