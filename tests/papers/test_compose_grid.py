"""The class grid: learners down, parts across, the answers of every key, cut into blocks that fit a sheet."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from courseware.files.bank_files import shipped_banks
from courseware.papers import compose_grid as grids
from courseware.papers.compose import compose_key, read_sources
from courseware.papers.compose_grid import compose_grid

TOPICS = [path.stem for path in shipped_banks()]


@pytest.mark.parametrize("topic", TOPICS)
def test_the_grid_holds_the_answers_of_every_key(composed, topic) -> None:
    sitting, sources = composed(topic)
    grid = compose_grid(sitting, sources)
    shown = [
        [answer for block in grid.blocks for answer in block.rows[place][2]] for place in range(len(sitting.papers))
    ]
    for place, row in enumerate(shown):
        answers = [a for e in compose_key(sitting, place, sources).exercises for part in e.answers for a in part]
        assert len(row) == len(answers)
        for text, answer in zip(row, answers, strict=True):
            whole = answer.answer.replace(", ", "").replace(" and ", " ")
            assert (text == "by eye", text == "see key") == (answer.by_eye, answer.open_order)
            assert answer.by_eye or answer.open_order or whole.startswith(text.partition(" ±")[0])
    assert [block.last for block in grid.blocks] == [False] * (len(grid.blocks) - 1) + [True]


@pytest.fixture(scope="module")
def few(dealt):
    """A sitting of three exercises, with its sources."""
    sitting = dealt("opening_sizes", 3)
    return sitting, read_sources(sitting)


def test_each_part_is_a_column_and_each_learner_a_row(few) -> None:
    sitting, sources = few
    grid = compose_grid(sitting, sources)
    assert [column.label for block in grid.blocks for column in block.columns] == [
        part.label for part in sitting.papers[0].parts
    ]
    for block in grid.blocks:
        assert [(code, name) for code, name, _ in block.rows] == [
            (paper.code, paper.learner.name) for paper in sitting.papers
        ]
        assert all(len(answers) == len(block.columns) for _, _, answers in block.rows)
    assert grid.marks == sum(column.marks for block in grid.blocks for column in block.columns)
    assert (grid.title, grid.group, grid.span) == (sitting.title, sitting.group, "")


def test_a_unit_stands_at_the_head_of_its_column_alone(few) -> None:
    grid = compose_grid(*few)
    for block in grid.blocks:
        for _, _, answers in block.rows:
            for column, answer in zip(block.columns, answers, strict=True):
                assert not (column.unit and answer.endswith(f" {column.unit}"))


@pytest.mark.parametrize(
    ("places", "span"), [(range(1), "learners 1 to 1 of 3"), (range(1, 3), "learners 2 to 3 of 3")]
)
def test_a_slice_of_a_large_class_says_which_learners_it_has(few, places, span) -> None:
    sitting, sources = few
    whole, part = compose_grid(sitting, sources), compose_grid(sitting, sources, places)
    assert part.span == span
    assert [block.rows for block in part.blocks] == [block.rows[places.start : places.stop] for block in whole.blocks]


@pytest.mark.parametrize("fewer", [-1, 0, 1, 2, 5])
def test_parts_are_spread_evenly_over_as_few_blocks_as_they_need(few, monkeypatch, fewer) -> None:
    """Room for one part more than there are, for just as many, and for fewer."""
    sitting, sources = few
    parts = len(sitting.papers[0].parts)
    monkeypatch.setattr(grids, "_ACROSS", parts - fewer)
    grid = compose_grid(sitting, sources)
    sizes = [len(block.columns) for block in grid.blocks]
    assert sum(sizes) == parts
    assert len(sizes) == math.ceil(parts / (parts - fewer))
    assert max(sizes) == math.ceil(parts / len(sizes))
    assert [block.last for block in grid.blocks] == [False] * (len(sizes) - 1) + [True]


def test_a_numbered_paper_has_its_code_alone(few) -> None:
    sitting, sources = few
    unnamed = replace(sitting, papers=tuple(replace(p, learner=replace(p.learner, name="")) for p in sitting.papers))
    rows = compose_grid(unnamed, sources).blocks[0].rows
    assert [(code, name) for code, name, _ in rows] == [(paper.code, "") for paper in sitting.papers]
