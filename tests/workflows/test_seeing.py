"""What came of a sitting as a screen shows it: the figures of marking, as they stand in the record now."""

from __future__ import annotations

from datetime import timedelta

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.opening import open_record
from courseware.database.typed_cells import TypedCell
from courseware.files.bank_files import NotFound
from courseware.papers.compose import compose_paper, read_sources
from courseware.workflows.marking_grid import beside_cell, keep_cell
from courseware.workflows.seeing import class_on_screen, learner_on_screen, starter_on_screen
from tests.marked_sitting import WHEN, figure


@pytest.fixture
def engine(place):
    """The record of the marked sitting: the first learner all right, the second decided, the third absent."""
    opened = open_record("sqlite:///output/record.sqlite")
    yield opened
    opened.dispose()


@pytest.fixture
def type_in(engine, place):
    """Types into a cell, having seen what stands there."""

    def go(place_of_paper: int, label: str, text: str) -> None:
        code = place.sitting.papers[place_of_paper].code
        seen = beside_cell(engine, place, (code, 1, label)).typed
        cell = TypedCell(code=code, attempt=1, label=label, text=text, seen=seen)
        keep_cell(engine, place, cell, assessor="J. Marsh", at=WHEN + timedelta(hours=1))

    return go


def test_the_class_as_it_was_marked(engine, place) -> None:
    seen = class_on_screen(engine, place)
    assert seen.figures.codes == tuple(sorted(paper.code for paper in place.sitting.papers[:2]))
    assert "1 absent" in seen.who
    assert [row.label for row in seen.table.rows] == list(seen.figures.codes)
    assert not seen.behind
    assert {one.code for one in seen.states} == set(seen.figures.codes)


def test_what_was_typed_since_counts_and_marking_is_said_to_be_behind(engine, place, type_in) -> None:
    first = place.sitting.papers[0]
    before = class_on_screen(engine, place)
    type_in(0, figure(first), "7")
    after = class_on_screen(engine, place)
    assert after.behind
    at = after.figures.codes.index(first.code)
    assert after.figures.totals[at] < before.figures.totals[at]


def test_a_slip_seen_on_two_papers_has_its_starter(engine, place, type_in) -> None:
    first, second, _ = place.sitting.papers
    label = next(part.label for part in first.parts if part.kind == "number" and part.slips)
    for number, paper in enumerate((first, second)):
        type_in(number, label, next(part.slips[0][0] for part in paper.parts if part.label == label))
    seen = class_on_screen(engine, place)
    again = [slip for slip in seen.slips if slip.one.again]
    assert again[0].seen.startswith(f"Seen 2 times, on 2 of 2 papers, in {label}")
    one, starter = starter_on_screen(engine, place, again[0].number)
    assert one == again[0].one
    sources = read_sources(place.sitting)
    asked = {one.pose for at in range(3) for one in compose_paper(place.sitting, at, sources).exercises}
    assert starter.answer
    assert starter.pose not in asked
    with pytest.raises(NotFound):
        starter_on_screen(engine, place, len(seen.slips))


def test_a_sitting_of_which_the_record_has_nothing_has_no_picture(place, tmp_path) -> None:
    anew = open_record(f"sqlite:///{tmp_path / 'anew.sqlite'}")
    seen = class_on_screen(anew, place)
    assert (seen.table, seen.blocks, seen.slips, seen.states, seen.behind) == (None, (), (), (), False)
    assert learner_on_screen(anew, place, place.sitting.papers[0].code).marked is None
    anew.dispose()


def test_one_learner_with_each_part(engine, place) -> None:
    second, third = place.sitting.papers[1:]
    seen = learner_on_screen(engine, place, second.code)
    assert [part.mark.label for part in seen.parts] == [part.label for part in second.parts]
    assert seen.marked.total == sum(part.mark.marks for part in seen.parts)
    assert (seen.name, seen.held) == (second.learner.name, False)
    assert learner_on_screen(engine, place, third.code).parts == ()
    with pytest.raises(RecordRefuses):
        learner_on_screen(engine, place, "AAAA")
