"""An exercise while it is marked: what is right on this paper, and what a later part goes by."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from courseware.banks.part import NumberPart
from courseware.marking.part_kind import MARKING_KINDS, NotRead, Work, mark_entry
from courseware.papers.compose import issued_from, read_sources
from courseware.papers.sitting_file import SittingFaulty


@pytest.fixture
def work(dealt) -> Work:
    """The first exercise of the first paper on opening sizes: figures alone, each part its own row."""
    sitting = dealt("opening_sizes", 3)
    issued = sitting.papers[0].exercises[0]
    return Work(issued, issued_from(issued, read_sources(sitting))[1])


def test_what_is_right_are_the_givens_and_the_sittings_answers(work: Work) -> None:
    right = work.right()
    for part in work.issued.parts:
        assert right[part.name] == Fraction(part.answer)
    assert {given.name for given in work.exercise.givens} <= set(right)
    assert set(right) == {given.name for given in work.exercise.givens} | {part.name for part in work.issued.parts}


def test_answers_go_by_the_sitting_not_by_the_bank_as_it_is_worked_out_now(work: Work) -> None:
    """So that a figure changed in the sitting's file is found out where it is marked."""
    first, *rest = work.issued.parts
    changed = replace(work.issued, parts=(replace(first, answer="1"), *rest))
    assert Work(changed, work.exercise).right()[first.name] == 1


def test_an_exercise_that_has_other_parts_than_the_bank_is_refused(work: Work) -> None:
    fewer = replace(work.issued, parts=work.issued.parts[:-1])
    with pytest.raises(SittingFaulty):
        _ = Work(fewer, work.exercise).entries


def test_a_banks_words_are_said_with_this_papers_figures_and_without_the_stop(work: Work) -> None:
    said = work.says(work.exercise.pose)
    assert said
    assert not said.endswith(".")
    assert "{{" not in said


def test_an_entry_goes_the_way_of_its_kind(work: Work) -> None:
    part, entry = work.exercise.parts[0], work.entries[0][0]
    assert isinstance(part, NumberPart)
    assert mark_entry(part, entry, work, entry.answer, {}).how == "right"
    assert mark_entry(part, entry, work, "", {}).how == "blank"
    assert mark_entry(part, entry, work, "nr", {}).how == "unreached"
    with pytest.raises(NotRead, match="it does not read as one figure"):
        mark_entry(part, entry, work, "see back", {})


def test_a_kind_that_nobody_knows_is_not_marked() -> None:
    assert MARKING_KINDS.get("essay") is None
    with pytest.raises(KeyError):
        MARKING_KINDS["essay"]
