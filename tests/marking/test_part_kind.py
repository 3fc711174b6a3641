"""An exercise while it is marked: what is right on this paper, and what a later part goes by."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.marking.part_kind import MARKING_KINDS, NotRead, Work, mark_entry
from courseware.papers.sitting_file import SittingFaulty
from tests.marking.test_decided_answers import exercise_at, sitting_of

AT, GIVEN = "own/one-opening", {"bricks": 4}  # 4 × 225 + 10 = 910 mm, and half of it: Sheet 9, Table 1, CO + Joint


@pytest.fixture
def work() -> Work:
    """A panel of 4 bricks: how wide its opening is, and how far each reveal is from the centre line."""
    return Work(sitting_of(AT, GIVEN).papers[0].exercises[0], exercise_at(AT)[1])


def test_what_is_right_are_the_givens_and_the_sittings_answers(work: Work) -> None:
    assert work.right() == {"bricks": 4, "width": 910, "half_width": 455}


def test_answers_go_by_the_sitting_not_by_the_bank_as_it_is_worked_out_now(work: Work) -> None:
    """So that a figure changed in the sitting's file is found out where it is marked."""
    first, *rest = work.issued.parts
    changed = Work(replace(work.issued, parts=(replace(first, answer="911"), *rest)), work.exercise)
    assert changed.right()["width"] == 911
    with pytest.raises(SittingFaulty, match="its answer in the sitting is not the one this program finds"):
        mark_entry(work.exercise.parts[0], changed.issued.parts[0], changed, "900", {})


def test_an_exercise_that_has_other_parts_than_the_bank_is_refused(work: Work) -> None:
    fewer = replace(work.issued, parts=work.issued.parts[:-1])
    with pytest.raises(SittingFaulty):
        _ = Work(fewer, work.exercise).entries


def test_a_banks_words_are_said_with_this_papers_figures_and_without_the_stop(work: Work) -> None:
    assert work.says(work.exercise.pose) == "The panel is 4 bricks wide. Joints are 10 mm"


@pytest.mark.parametrize(("typed", "how"), [("910", "right"), ("0.91 m", "right"), ("", "blank"), ("nr", "unreached")])
def test_an_entry_goes_the_way_of_its_kind(work: Work, typed: str, how: str) -> None:
    assert mark_entry(work.exercise.parts[0], work.entries[0][0], work, typed, {}).how == how


def test_what_a_learner_found_is_what_their_later_parts_go_by(work: Work) -> None:
    """900 is the first slip; half of it is right from there."""
    (width,), (half,) = work.entries
    assert mark_entry(work.exercise.parts[0], width, work, "900", {}).how == "slip"
    assert work.learner == {"width": 900}
    assert mark_entry(work.exercise.parts[1], half, work, "450", {}).how == "carried"


def test_a_cell_that_a_person_must_settle_is_not_marked(work: Work) -> None:
    with pytest.raises(NotRead, match="it does not read as one figure"):
        mark_entry(work.exercise.parts[0], work.entries[0][0], work, "see back", {})


def test_a_kind_that_nobody_knows_is_not_marked() -> None:
    assert MARKING_KINDS.get("essay") is None
    with pytest.raises(KeyError):
        MARKING_KINDS["essay"]
