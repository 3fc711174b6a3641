"""What follows from a page's size and type: widths side by side, columns of short texts, what its style says."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.papers.sheet_format import read_format
from courseware.printing.page_format import A4, PageFormat, page_for


def test_two_halves_and_the_gap_are_as_wide_as_the_page() -> None:
    assert 2 * A4.half + A4.gap == A4.wide == 210 - A4.left - A4.right


@pytest.mark.parametrize(("letters", "columns"), [(1, 3), (20, 3), (37, 2), (90, 1)])
def test_texts_stand_in_as_many_columns_as_leave_the_longest_whole(letters: int, columns: int) -> None:
    texts = ["x" * letters, "x", "x", "x", "x"]
    found = A4.columns(texts, A4.wide, 15)
    assert found == columns
    assert found == 1 or A4.length(texts[0]) + 15 <= A4.wide / found


@pytest.mark.parametrize("room", [-0.5, 0.0, 0.5])
def test_a_column_is_taken_from_the_width_at_which_the_longest_fits(room: float) -> None:
    texts = ["x" * 20] * 2
    wide = 2 * (A4.length(texts[0]) + 15) + room
    assert A4.columns(texts, wide, 15) == (2 if room >= 0 else 1)


def test_there_are_no_more_columns_than_the_rows_need() -> None:
    assert A4.columns(["x"] * 6, 500, 10) == 3  # two rows of three, where four would fit
    assert A4.columns([], 100, 10) == 1


def test_larger_type_takes_more_lines() -> None:
    large = replace(A4, type_size=18.0)
    says = "How wide must the opening be, brick to brick, where the panel is seven bricks wide and no brick is cut?"
    assert large.text_height(says, A4.wide) > A4.text_height(says, A4.wide) >= A4.line


def test_the_style_says_what_the_format_does() -> None:
    page = PageFormat(sheet=(297.0, 420.0), left=30.0, type_size=18.0)
    assert "size: 297.0mm 420.0mm" in page.rules
    assert "font-size: 18.0pt" in page.rules
    assert f".half {{ width: {page.half}mm }}" in page.rules


@pytest.mark.parametrize("words", ["spaced", "andika", "large-24"])
def test_the_foot_of_feedback_stands_beside_the_line_to_check_the_print_by(words: str) -> None:
    """The line and its words are 104 mm wide in the style sheet."""
    page = page_for(read_format(words))
    assert f"@bottom-right {{ width: {page.wide - 105}mm }}" in page.rules


@pytest.mark.parametrize(("words", "may"), [("", True), ("cream", True), ("large-14", False), ("spaced", False), ("roomy", False), ("part-a-page", False)])  # fmt: skip
def test_a_page_is_set_closer_only_where_nobody_asked_for_room(words: str, may: bool) -> None:
    closer = page_for(read_format(words)).closer
    assert (closer is not None) is may
    assert closer is None or closer.line_height < A4.line_height


def test_a_part_a_page_has_twice_the_room_to_write_in() -> None:
    assert page_for(read_format("part-a-page")).room == 2 * A4.room
