"""Pictures enlarged for the whiteboard: they fill their room, words grow as far as they have room, nothing else moves."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations

import pytest
from shapely import LineString, box

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw
from courseware.drawings.enlarged import enlarged, resized
from courseware.drawings.picture import Label, Picture, Stroke, extent
from tests.drawings.test_table_of_kinds import MIDDLING

ROOM, WANTED = (242.0, 131.0), 8.5
BAR = Stroke(outlines=(((0.0, 0.0), (100.0, 50.0)),), weight=0.5, dash=(2.0, 1.0))


def picture(*labels: Label) -> Picture:
    return Picture(width=100, height=50, marks=(BAR, *labels), alt="A bar")


def labels(made: Picture) -> list[Label]:
    return [mark for mark in made.marks if isinstance(mark, Label)]


def test_everything_goes_by_one_factor_and_type_by_its_own() -> None:
    made = resized(picture(Label(at=(10, 20), text="a", size=3)), 2, lambda size: size * 1.5, 3)
    bar, label = made.marks
    assert (made.width, made.height) == (200, 100)
    assert isinstance(bar, Stroke)
    assert bar.outlines == (((0.0, 0.0), (200.0, 100.0)),)
    assert (bar.dash, bar.weight) == ((4.0, 2.0), 1.5)
    assert (label.at, label.size) == ((20, 40), 4.5)


@pytest.mark.parametrize(("apart", "grows"), [(40.0, True), (2.0, False)])
def test_words_grow_where_they_have_room_and_no_further(apart: float, grows: bool) -> None:
    """Two words of four letters in type of 1 mm are 2.4 mm wide: 40 mm apart they have room to grow, 2.5 mm not."""
    first = Label(at=(20, 20), text="1585", size=1, anchor="start")
    second = Label(at=(20 + 2.4 + apart, 20), text="1585", size=1, anchor="start")
    made = enlarged(picture(first, second), (200.0, 100.0), 12)
    assert (labels(made)[0].size > 9) is grows
    assert all(label.size >= 1.9 for label in labels(made))  # as large at least as all else: twice


def is_ratio(label: Label) -> bool:
    """Whether it writes out the scale, which a drawing made larger has no more."""
    return label.of_scale and label.text.startswith("scale 1:")


def touching(made: Picture) -> set[tuple[int, int]]:
    """The labels that stand over one another."""
    around = [bounds(extent(label)) for label in labels(made)]
    return {(one, other) for (one, a), (other, b) in combinations(enumerate(around), 2) if meet(a, b)}


def over_bricks(made: Picture) -> set[tuple[int, int]]:
    """The labels that reach into a brick, or whatever else is filled, by their middles: half way up their letters."""
    bricks = [bounds(o) for m in made.marks if isinstance(m, Stroke) and m.closed and m.fill is not None for o in m.outlines]  # fmt: skip
    middles = [LineString(middle(label)) for label in labels(made)]
    return {(one, other) for one, line in enumerate(middles) for other, brick in enumerate(bricks) if line.intersects(box(*brick))}  # fmt: skip


def middle(label: Label) -> list[tuple[float, float]]:
    """The line half way up its letters, from one end to the other."""
    corners = extent(label)
    foot, head, last_foot, last_head = corners
    return [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ((foot, head), (last_foot, last_head))]


def bounds(points: Iterable[tuple[float, float]]) -> tuple[float, float, float, float]:
    across, down = zip(*points, strict=True)
    return min(across), min(down), max(across), max(down)


def meet(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


@pytest.mark.parametrize("kind", ["opening", "wall", "soldiers", "panel"])
def test_a_drawings_foot_stands_below_it_in_words_of_the_size_and_its_bar_is_true(kind: str, calling) -> None:
    """The bar is as long as the scale at which the drawing then is makes its words: `500 mm` at 1 to 5 is 100 mm."""
    made = enlarged(draw(calling(kind, {}, **MIDDLING[kind])), ROOM, WANTED)
    assert made.body
    assert made.one_to
    assert made.width <= ROOM[0] + 0.01
    assert made.height <= ROOM[1] + 0.01
    says = next(label for label in labels(made) if label.of_scale)
    assert says.size == pytest.approx(WANTED)
    pieces = [
        bounds(outline)
        for mark in made.marks
        if isinstance(mark, Stroke) and mark.fill in (0.0, 1.0)
        for outline in mark.outlines
        if min(y for _, y in outline) > made.body.height and max(x for x, _ in outline) < says.at[0]
        if abs(max(y for _, y in outline) - says.at[1]) < WANTED
    ]
    long = max(right for _, _, right, _ in pieces) - min(left for left, *_ in pieces)
    assert long * made.one_to == pytest.approx(int(says.text.removesuffix(" mm")))


@pytest.mark.parametrize(("high", "has_foot"), [(60.0, True), (14.0, False)])
def test_a_foot_that_would_take_too_much_of_its_room_is_left_out(high: float, has_foot: bool, calling) -> None:
    made = enlarged(draw(calling("soldiers", {}, **MIDDLING["soldiers"])), (60.0, high), 3.2)
    assert any(label.of_scale for label in labels(made)) is has_foot


@pytest.mark.parametrize("kind", list(MIDDLING))
def test_every_kind_fills_its_room_and_its_words_stand_apart(kind: str, calling) -> None:
    """Its words are those it had; every other one of its dimensions is a figure, as on a question's drawing."""
    known = DRAWING_KINDS[kind].dimensions
    drawn = draw(calling(kind, {name: None if n % 2 else "1234.5" for n, name in enumerate(known)}, **MIDDLING[kind]))
    drawn = replace(drawn.body, one_to=None, legend=()) if drawn.body else drawn
    made = enlarged(drawn, ROOM, WANTED)
    assert max(made.width / ROOM[0], made.height / ROOM[1]) == pytest.approx(1)
    assert touching(made) <= touching(drawn)
    assert over_bricks(made) <= over_bricks(drawn)
    assert [label.text for label in labels(made)] == [label.text for label in labels(drawn) if not is_ratio(label)]
