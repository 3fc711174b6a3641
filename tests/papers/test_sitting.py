"""A sitting's papers: every part and row in order, with the same labels on each paper."""

from __future__ import annotations

from dataclasses import FrozenInstanceError

import pytest


def test_the_parts_of_a_paper_are_those_of_its_exercises_in_order(dealt) -> None:
    paper = dealt("opening_sizes", 3).papers[0]
    assert paper.parts == tuple(part for exercise in paper.exercises for part in exercise.parts)
    assert len({part.label for part in paper.parts}) == len(paper.parts)


def test_the_labels_are_the_same_on_every_paper(dealt) -> None:
    labels = {tuple(part.label for part in paper.parts) for paper in dealt("opening_sizes", 3).papers}
    assert len(labels) == 1


def test_nothing_issued_can_be_changed(dealt) -> None:
    sitting = dealt("opening_sizes", 3)
    with pytest.raises(FrozenInstanceError):
        sitting.papers[0].parts[0].answer = "1"  # type: ignore[misc]
