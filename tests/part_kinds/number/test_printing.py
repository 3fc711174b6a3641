"""Room for a figure on paper: as much as its marks ask for, no narrower than a hand needs."""

from __future__ import annotations

from math import inf

import pytest

from courseware.papers.sheets import AskedPart
from courseware.printing.page_elements import ROOM_LEAST
from courseware.printing.page_format import A4
from courseware.printing.part_kind import PRINT_KINDS

PART = AskedPart(label="1a", kind="number", ask="How wide?", marks=2, unit="mm")


def test_more_marks_have_more_room() -> None:
    rooms = [PRINT_KINDS["number"].rooms(PART, marks, A4.wide, A4) for marks in (1, 2, 3)]
    heights = [next(iter(pictures.values())).height for pictures in rooms]
    assert heights == sorted(set(heights))


@pytest.mark.parametrize(("wide", "fits"), [(ROOM_LEAST - 0.1, False), (ROOM_LEAST, True), (ROOM_LEAST + 0.1, True)])
def test_no_room_for_working_is_narrower_than_a_hand_needs(wide: float, fits: bool) -> None:
    assert (PRINT_KINDS["number"].height(PART, wide, A4) < inf) is fits
