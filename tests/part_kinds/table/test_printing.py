"""Tables on paper: they need the page's width, and a row more height for each row."""

from __future__ import annotations

from math import inf

import pytest

from courseware.papers.sheets import AskedPart, AskedRow
from courseware.printing.page_format import A4
from courseware.printing.part_kind import PRINT_KINDS


@pytest.mark.parametrize(("wide", "fits"), [(A4.half, False), (A4.wide - 0.1, False), (A4.wide, True)])
def test_a_table_is_as_wide_as_the_page(wide: float, fits: bool) -> None:
    row = AskedRow(label="1a(i)", say="Width", unit="mm", marks=1)
    one, two = (AskedPart(label="1a", kind="table", ask="Fill in.", marks=n, rows=(row,) * n) for n in (1, 2))
    assert (PRINT_KINDS["table"].height(one, wide, A4) < inf) is fits
    assert not fits or PRINT_KINDS["table"].height(two, wide, A4) > PRINT_KINDS["table"].height(one, wide, A4)
