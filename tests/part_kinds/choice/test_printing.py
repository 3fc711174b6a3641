"""Choices on paper: in columns where they are short, and how high that is."""

from __future__ import annotations

import pytest

from courseware.papers.sheets import AskedPart
from courseware.printing.page_format import A4
from courseware.printing.part_kind import PRINT_KINDS
from courseware.printing.render import columns


def choice(*options: str) -> AskedPart:
    lettered = tuple(zip("ABCDEFGHIJ", options, strict=False))
    return AskedPart(label="1a", kind="choice", ask="Which?", marks=1, options=lettered)


def test_short_choices_take_fewer_rows_and_so_less_height() -> None:
    short, long = choice(*["600 mm"] * 4), choice(*["A choice that needs most of the width of a page, or nearly"] * 4)
    assert columns(short, A4.wide) == 4
    assert columns(long, A4.wide) == 1
    heights = [PRINT_KINDS["choice"].height(part, A4.wide, A4) for part in (short, long)]
    assert heights[1] == pytest.approx(4 * heights[0])


def test_a_choice_broken_over_two_lines_counts_twice() -> None:
    part = choice("x" * 70, "x" * 70)
    whole, half = (PRINT_KINDS["choice"].height(part, wide, A4) for wide in (A4.wide, A4.half))
    assert half > whole
