"""Steps on paper: their boxes keep to the width they are given."""

from __future__ import annotations

from math import inf

import pytest

from courseware.papers.sheets import AskedPart
from courseware.printing.page_format import A4
from courseware.printing.part_kind import PRINT_KINDS


@pytest.mark.parametrize(("steps", "fits"), [(5, True), (6, True), (7, False)])
def test_an_order_stands_in_half_the_width_with_up_to_six_steps(steps: int, fits: bool) -> None:
    options = tuple((letter, "Lay it") for letter in "ABCDEFG"[:steps])
    part = AskedPart(label="1a", kind="order", ask="In what order?", marks=2, options=options)
    assert (PRINT_KINDS["order"].height(part, A4.half, A4) < inf) is fits
    assert PRINT_KINDS["order"].height(part, A4.wide, A4) < inf
