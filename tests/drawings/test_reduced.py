"""A drawing made smaller: its shape kept, its words large enough to read."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Label, Picture, Stroke
from courseware.drawings.reduced import fits, reduced


class TestMadeSmaller:
    drawn = Picture(
        width=100, height=50, alt="",
        marks=(Stroke(outlines=(((0, 0), (100, 50)),), dash=(2, 1)), Label(at=(50, 25), text="910", size=3.0)),
    )  # fmt: skip

    def test_keeps_its_shape(self) -> None:
        small = reduced(self.drawn, (50, 50))
        assert (small.width, small.height) == (50, 25)
        assert small.marks[0] == Stroke(outlines=(((0, 0), (50, 25)),), dash=(1, 0.5))

    @pytest.mark.parametrize(("room", "size"), [((50, 50), 2.83), ((90, 50), 2.83), ((97, 50), 2.88)])
    def test_keeps_words_that_can_be_read(self, room, size) -> None:
        assert reduced(self.drawn, room).marks[1].size == pytest.approx(size)

    def test_is_left_alone_where_it_fits(self) -> None:
        assert reduced(self.drawn, (200, 200)) == self.drawn

    def test_fits_to_the_edge_and_not_beyond(self) -> None:
        assert [fits(self.drawn, (wide, 50)) for wide in (99.9, 100, 100.1)] == [False, True, True]
