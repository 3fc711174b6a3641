"""What stands beside what: rows of two where they save paper, a drawing beside its words where the width allows."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest

from courseware.drawings import draw
from courseware.papers.sheets import AskedExercise, AskedPart, AskedRow, DrawingCall
from courseware.printing.arrangement import Arrangement, arranged, part_height
from courseware.printing.page_format import A4
from courseware.trade import FORMATS


def number(label: str, marks: int = 2, ask: str = "How wide?") -> AskedPart:
    return AskedPart(label=label, kind="number", ask=ask, marks=marks, unit="mm")


def choice(label: str, *options: str) -> AskedPart:
    letters = tuple(zip("ABCDEF", options, strict=False))
    return AskedPart(label=label, kind="choice", ask="Which?", marks=1, options=letters)


def table(label: str) -> AskedPart:
    rows = (AskedRow(label=f"{label}(i)", say="Width", unit="mm", marks=1),)
    return AskedPart(label=label, kind="table", ask="Fill in.", marks=1, rows=rows)


def exercise(*parts: AskedPart, drawing=None) -> AskedExercise:
    return AskedExercise(
        number=1, topic="Piers", level=1, setting="A wall goes up.", pose="It is long. " * 8, brick="", parts=parts,
        marks=sum(part.marks for part in parts), drawing=drawing,
    )  # fmt: skip


def rows(*parts: AskedPart) -> list[list[str]]:
    return [[placed.part.label for placed in row] for row in arranged(exercise(*parts), A4).rows]


def test_two_figures_stand_side_by_side_and_a_third_alone() -> None:
    assert rows(number("1a"), number("1b"), number("1c")) == [["1a", "1b"], ["1c"]]


def test_a_pair_is_half_the_page_wide_each() -> None:
    [row] = arranged(exercise(number("1a"), number("1b")), A4).rows
    assert [placed.wide for placed in row] == [A4.half, A4.half]


def test_a_figure_of_a_mark_alone_has_its_room_beside_what_is_asked() -> None:
    [[placed]] = arranged(exercise(number("1a", marks=1)), A4).rows
    assert placed.beside
    assert placed.wide == A4.half


def test_a_table_has_the_page_to_itself() -> None:
    assert rows(number("1a"), table("1b"), number("1c")) == [["1a"], ["1b"], ["1c"]]
    assert part_height(table("1a"), A4.half, A4) == inf


def test_short_choices_stand_beside_a_figure_and_long_ones_below_it() -> None:
    assert rows(number("1a"), choice("1b", "600 mm", "610 mm", "620 mm")) == [["1a", "1b"]]
    long = ["So long that it takes more than one line where it has half of the page " + letter for letter in "abcdef"]
    assert rows(number("1a"), choice("1b", *long)) == [["1a"], ["1b"]]


@pytest.mark.parametrize(("lines", "pair"), [(3, True), (4, True), (5, False)])
def test_what_is_asked_in_half_the_width_has_four_lines_at_most(lines: int, pair: bool) -> None:
    letters = int(lines * (A4.half - 21) / A4.length("x")) - 1
    asked = number("1a", ask="x" * letters)
    assert (part_height(asked, A4.half, A4) < inf) is pair
    assert part_height(asked, A4.wide, A4) < inf


def test_every_part_stands_once_and_in_order(printed) -> None:
    for topic in ("opening_sizes", "mitre_template", "resource_lists"):
        for one in printed(topic).paper.exercises:
            assert [placed.part for placed in arranged(one, A4).placed] == list(one.parts)


@pytest.fixture(scope="module")
def drawn(printed) -> list[AskedExercise]:
    topics = ("opening_sizes", "panels_and_surrounds", "decorative_courses", "resource_lists", "mitre_template")
    return [one for topic in topics for one in printed(topic).paper.exercises if one.drawing]


def test_a_drawing_stands_beside_its_words_only_where_both_have_room(drawn) -> None:
    beside = 0
    for one in drawn:
        found: Arrangement = arranged(one, A4)
        assert found.drawing is not None
        if found.beside:
            beside += 1
            assert found.drawing.width + A4.gap + 74 <= A4.wide
            assert all(placed.wide + A4.gap + found.drawing.width <= A4.wide for placed in found.first)
        else:
            assert not found.first
            assert found.drawing.width <= A4.wide
    assert beside > len(drawn) / 3


def test_what_is_drawn_in_at_true_size_keeps_it(drawn) -> None:
    template = next(one for one in drawn if one.drawn_in_place)
    assert arranged(template, A4).drawing == draw(template.drawing)


def test_a_narrower_page_arranges_by_its_own_width(drawn) -> None:
    narrow = replace(A4, sheet=(160.0, 297.0))
    found = arranged(exercise(number("1a"), number("1b")), narrow)
    assert [[placed.part.label for placed in row] for row in found.rows] == [["1a"], ["1b"]]


@pytest.mark.parametrize(("sentences", "high"), [(8, 41.7), (30, 56.6), (36, 34.2)])
def test_a_drawing_is_made_smaller_only_where_that_saves_7_mm(sentences: int, high: float) -> None:
    """Of a panel 8 bricks by 30 courses; beside 8 and 30 sentences a smaller one would save 3 mm and more, beside 36 over 7."""
    panel = DrawingCall(
        kind="panel", figures={"bricks": "8", "courses": "30", "starts": "stretcher", "drawn": "all"}, labels={},
        format=FORMATS["UK_METRIC"], alt="A panel",
    )  # fmt: skip
    found = arranged(replace(exercise(number("1a"), drawing=panel), pose="It is long. " * sentences), A4)
    assert found.beside
    assert found.drawing.height == pytest.approx(high, abs=0.1)
