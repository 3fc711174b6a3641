"""The heat map read back as a drawing: a cell for each figure, the shade for its share, type that can be read."""

from __future__ import annotations

import pytest

from courseware.class_report.heat_map import WIDE, heat_map, shade
from courseware.class_report.heat_table import MOST_DIGITS, MOST_MARKS, MOST_SHARES, Cell, Column, HeatTable, Row
from courseware.drawings.picture import Label, Picture, Stroke

POINT = 25.4 / 72  # mm
LEAST = 8 * POINT  # mm of type, the least that is read on paper: common practice, no source
BROADEST = (
    0.66  # of its size, that a figure or a capital of the sheet's type is wide on average; none is wider than 0.8
)


def table(rows: int, columns: int, share=lambda row, column: (row + column) % 5 / 4, papers: bool = True) -> HeatTable:
    return HeatTable(
        columns=tuple(Column(label=f"{n // 4 + 1}{'abcd'[n % 4]}", of=4, begins=n % 4 == 0) for n in range(columns)),
        rows=tuple(
            Row(
                label=f"ABCD-{row:04}",
                cells=tuple(Cell(text=str(round(4 * share(row, n))), share=share(row, n)) for n in range(columns)),
                total=str(row),
            )
            for row in range(rows)
        ),
        papers=papers,
        parts=True,
    )


def cells(picture: Picture) -> list[tuple[float, float, float, float, float]]:
    """Each cell's left, top, right, foot and grey."""
    found = []
    for mark in picture.marks:
        if isinstance(mark, Stroke) and mark.fill is not None:
            for outline in mark.outlines:
                xs, ys = [x for x, _ in outline], [y for _, y in outline]
                found.append((min(xs), min(ys), max(xs), max(ys), mark.fill))
    return found


def words(picture: Picture) -> list[Label]:
    return [mark for mark in picture.marks if isinstance(mark, Label)]


def figure_in(picture: Picture, cell: tuple[float, ...]) -> str:
    left, top, right, foot, _ = cell
    inside = [one for one in words(picture) if left < one.at[0] < right and top < one.at[1] < foot]
    assert len(inside) == 1
    return inside[0].text


@pytest.mark.parametrize(("rows", "columns"), [(1, 1), (7, 30), (30, MOST_DIGITS), (30, MOST_SHARES)])
def test_every_cell_has_its_figure_and_the_grey_of_its_share(rows: int, columns: int) -> None:
    asked = table(rows, columns)
    picture = heat_map(asked)
    found = sorted(cells(picture), key=lambda cell: (round(cell[1], 3), cell[0]))
    assert len(found) == rows * columns
    wanted = [(cell.text, shade(cell.share)) for row in asked.rows for cell in row.cells]
    assert [(figure_in(picture, cell), cell[4]) for cell in found] == wanted


@pytest.mark.parametrize(("share", "grey"), [
    (1.0, 1.0), (0.99, 0.9), (0.76, 0.9), (0.75, 0.9), (0.74, 0.8), (0.51, 0.8), (0.5, 0.8), (0.49, 0.7), (0.26, 0.7),
    (0.25, 0.7), (0.24, 0.58), (0.01, 0.58), (0.0, 0.58),
])  # fmt: skip
def test_the_fewer_marks_the_darker_and_white_is_all_of_them(share: float, grey: float) -> None:
    assert shade(share) == grey


@pytest.mark.parametrize("grey", [1.0, 0.9, 0.8, 0.7, 0.58])
def test_a_black_figure_can_be_read_on_every_grey(grey: float) -> None:
    """Contrast of at least 4.5 to 1. Source: WCAG 2.2, success criterion 1.4.3, with its relative luminance."""
    luminance = grey / 12.92 if grey <= 0.04045 else ((grey + 0.055) / 1.055) ** 2.4
    assert (luminance + 0.05) / 0.05 >= 4.5


@pytest.mark.parametrize(("rows", "columns"), [(1, 1), (30, 30), (30, MOST_DIGITS)])
def test_all_words_are_on_the_picture_and_large_enough(wide, rows: int, columns: int) -> None:
    picture = heat_map(table(rows, columns))
    assert picture.width == WIDE
    for one in words(picture):
        assert one.size >= LEAST
        long = wide(one)
        x, y = one.at
        if one.turn == 90:
            assert y - long >= 0, one.text
        else:
            start = {"start": x, "middle": x - long / 2, "end": x - long}[one.anchor]
            assert start >= -0.1, one.text
            assert start + long <= WIDE + 0.1, one.text
        assert 0 <= y <= picture.height


@pytest.mark.parametrize(("columns", "figure"), [(MOST_DIGITS, "9"), (MOST_MARKS, "20"), (MOST_SHARES, "100")])
def test_the_most_columns_are_wide_enough_for_their_longest_figure(wide, columns: int, figure: str) -> None:
    picture = heat_map(table(3, columns, papers=columns != MOST_SHARES))
    left, _, right, _, _ = cells(picture)[0]
    bold = figure != "100"  # nothing got and what is open is bold: no share of all is
    assert wide(Label(at=(0, 0), text=figure, size=words(picture)[-1].size, bold=bold)) <= right - left


def test_names_are_turned_only_where_they_do_not_fit_across() -> None:
    assert {one.turn for one in words(heat_map(table(3, 8)))} == {0}
    assert {one.turn for one in words(heat_map(table(3, 40)))} == {0, 90}


def test_nothing_got_and_what_is_open_is_bold() -> None:
    one = HeatTable(
        columns=tuple(Column(label=f"{n}a", of=2, begins=True) for n in range(3)),
        rows=(
            Row(
                label="CODE",
                cells=(Cell(text="0", share=0), Cell(text="1", share=0.5), Cell(text="?", share=0.5, open=True)),
                total="1",
            ),
        ),
        papers=True,
        parts=True,
    )
    picture = heat_map(one)
    middle = [label for label in words(picture) if label.text in {"0", "1", "?"} and label.anchor == "middle"]
    assert [(label.text, label.bold) for label in middle] == [("0", True), ("1", False), ("?", True)]


def test_the_alternative_text_says_its_size_and_where_the_fewest_marks_were_got() -> None:
    alt = heat_map(table(2, 3, share=lambda _, column: (0.9, 0.1, 0.5)[column])).alt
    assert alt == "A heat map of 2 papers by 3 parts. Fewest marks were got in 1b, 1c, 1a."
