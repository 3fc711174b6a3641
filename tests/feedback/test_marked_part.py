"""Which parts of a marked paper tell most about where it went wrong."""

from __future__ import annotations

import pytest

from courseware.feedback.marked_part import (
    MOST_TOLD,
    MarkedPart,
    NoMarks,
    certain_slips,
    marked_parts,
    most_telling,
    times_seen,
)
from courseware.marking.marks import How, Mark, NamedSlip
from courseware.papers.compose import compose_key
from tests.feedback.marked_papers import WIDTH, Part, marked, other, parts_of, slip

RULE, GAP = ("which-rule", "stands_at"), ("what-fits-the-gap", "bricks_wide")
FAULT, GERMAN = ("fault-in-a-set-out", "right_width"), ("german-format", "panel_width")


@pytest.fixture(scope="session")
def parts_with(on_openings):
    """The parts of learner 1's paper on openings, all right but what is told."""
    sitting, sources, _ = on_openings

    def made(lost: dict[Part, Mark]) -> tuple[MarkedPart, ...]:
        return marked_parts(sitting.papers[0], compose_key(sitting, 0, sources), marked(sitting, lost), sources)

    return made


def label(on_openings, name: Part) -> str:
    return parts_of(on_openings[0])[name][1].label


def test_every_part_and_row_is_there_in_order_with_its_question(on_openings, parts_with) -> None:
    found = parts_with({})
    assert [part.mark.label for part in found] == [part.label for part in on_openings[0].papers[0].parts]
    assert all(part.ask and part.secure and not part.lost for part in found)


@pytest.mark.parametrize(
    ("how", "marks", "lost"), [("slip", 1, True), ("slip", 2, False), ("asked", 0, False), ("blank", 0, True)]
)
def test_marks_are_lost_as_far_as_that_is_settled(on_openings, parts_with, how: How, marks: int, lost: bool) -> None:
    own = next(part for part in parts_with({WIDTH: other(how, marks)}) if part.mark.label == label(on_openings, WIDTH))
    assert own.lost is lost
    assert own.secure is (marks == 2)


def test_a_slip_tells_more_than_a_figure_nearly_right_and_that_more_than_a_blank(on_openings, parts_with) -> None:
    lost = {WIDTH: other("blank"), RULE: other("tens", 1), GAP: slip(on_openings[0], *GAP, 1)}
    told = [part.mark.label for part in most_telling(parts_with(lost), ())]
    assert told == [label(on_openings, name) for name in (GAP, RULE, WIDTH)]


@pytest.mark.parametrize(("many", "told"), [(0, 0), (2, 2), (3, 3), (4, MOST_TOLD), (9, MOST_TOLD)])
def test_no_more_than_three_are_told(on_openings, parts_with, many: int, told: int) -> None:
    firsts = {exercise: (exercise, part) for exercise, part in reversed(parts_of(on_openings[0]))}
    lost = dict.fromkeys(list(firsts.values())[:many], other("unknown"))
    assert len(most_telling(parts_with(lost), ())) == told


def test_a_slip_is_counted_in_the_script_and_in_earlier_ones_by_its_place_or_its_words(on_openings, parts_with) -> None:
    sitting = on_openings[0]
    parts = parts_with({WIDTH: slip(sitting, *WIDTH, 1, earns=1), FAULT: slip(sitting, *FAULT, 1)})
    own = next(part for part in parts if part.mark.label == label(on_openings, WIDTH))
    assert times_seen(own, parts, ()) == 2, "the same words in another exercise"
    before = NamedSlip(key="opening-for-a-panel/opening_width/1", says="as it was worded then")
    assert times_seen(own, parts, (before,)) == 3
    assert times_seen(own, parts, (NamedSlip(key="x/y/1", says="another"),)) == 2


@pytest.mark.parametrize(("how", "certain"), [("slip", 1), ("partly", 1), ("wrong", 1), ("family", 0), ("decided", 0)])
def test_a_figure_that_several_slips_give_names_none(on_openings, parts_with, how: How, certain: int) -> None:
    parts = parts_with({WIDTH: slip(on_openings[0], *WIDTH, 1, how=how)})
    own = next(part for part in parts if part.mark.label == label(on_openings, WIDTH))
    assert len(certain_slips(own)) == certain


def test_marks_of_another_paper_are_refused(on_openings) -> None:
    sitting, sources, _ = on_openings
    with pytest.raises(NoMarks, match="do not go with paper"):
        marked_parts(sitting.papers[1], compose_key(sitting, 1, sources), marked(sitting), sources)
