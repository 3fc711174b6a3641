"""Tiles of a drawing larger than a page: what is written on one stands clear of the marks to join it by."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Picture, Stroke
from courseware.drawings.tiles import TILE, tiles

SHARED = 10  # mm of two tiles
REACH = 3  # mm of a cross, each way from the middle of what is shared


@pytest.fixture
def square() -> tuple[Picture, ...]:
    """A square of 300 mm on its tiles."""
    frame = Stroke(outlines=(((0, 0), (300, 0), (300, 300), (0, 300)),), closed=True, weight=1)
    return tiles(Picture(width=300, height=300, marks=(frame,), alt="a square"))


def test_each_tile_says_which_it_is_of_how_many(square) -> None:
    names = ["tile A1 of A1 to B2", "tile A2 of A1 to B2", "tile B1 of A1 to B2", "tile B2 of A1 to B2"]
    assert [tile.marks[-1].text for tile in square] == names
    assert [tile.alt for tile in square] == [f"a square, {name}" for name in names]


def test_its_name_stands_clear_of_the_crosses(square) -> None:
    for tile in square:
        name = tile.marks[-1]
        assert name.anchor == "end"
        assert name.at[0] <= TILE[0] - SHARED / 2 - REACH


def test_all_of_its_edge_is_on_it(square) -> None:
    for tile in square:
        edge = tile.marks[-2]
        [corners] = edge.outlines
        for place, size in enumerate(TILE):
            assert {edge.weight / 2 <= corner[place] <= size - edge.weight / 2 for corner in corners} == {True}
