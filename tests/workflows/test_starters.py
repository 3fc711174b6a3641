"""Starters: a fresh question of every exercise, the same each time, and none that anybody in the sitting had."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.banks import Space
from courseware.papers.compose import read_sources
from courseware.papers.sitting import Sitting
from courseware.papers.unused_variants import given_texts
from courseware.workflows.starters import fresh_spaces, starter_questions, starters


@pytest.fixture(scope="module")
def sitting(dealt) -> Sitting:
    return dealt("opening_sizes", exercises=3)


def names(sitting: Sitting) -> list[tuple[str, str]]:
    return [(issued.topic, issued.exercise) for issued in sitting.papers[0].exercises]


def test_a_starter_is_for_practice_and_numbered_as_the_papers_are(sitting) -> None:
    sources = read_sources(sitting)
    spaces = fresh_spaces(sources, names(sitting), 1)
    made = starter_questions(sitting, sources, spaces)
    assert list(made) == [issued.exercise for issued in sitting.papers[0].exercises]
    for (fresh, key), issued in zip(made.values(), sitting.papers[0].exercises, strict=True):
        assert [part.label for part in fresh.parts] == [part.label for part in issued.parts]
        space = spaces[issued.topic, issued.exercise]
        assert fresh.given in [given_texts(space.variant(place)) for place in range(len(space))]
        assert key.asked.number == int(issued.parts[0].label[:-1].rstrip("abc("))
    assert starter_questions(sitting, sources, spaces) == made
    found = starters(made)
    assert set(found) == {part.label for fresh, _ in made.values() for part in fresh.parts}


def test_a_variant_that_was_issued_is_no_starter(sitting) -> None:
    """Of an exercise whose space holds little else the one that is left is taken, and with none left there is none."""
    sources = read_sources(sitting)
    name = names(sitting)[0]
    whole = fresh_spaces(sources, [name], 1)[name]
    space = Space(exercise=whole.exercise, indices=whole.indices[:3])
    variants = [given_texts(space.variant(place)) for place in range(3)]

    def holding(*given: dict[str, str]) -> Sitting:
        papers = []
        for paper, own in zip(sitting.papers, given, strict=False):
            first, *others = paper.exercises
            papers.append(replace(paper, exercises=(replace(first, given=own), *others)))
        return replace(sitting, papers=(*papers, *sitting.papers[len(papers) :]))

    made = starter_questions(holding(*variants[:2]), sources, {name: space})
    assert made[name[1]][0].given == variants[2]
    assert starter_questions(holding(*variants), sources, {name: space}) == {}
