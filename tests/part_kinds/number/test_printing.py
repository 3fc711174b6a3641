"""Room for a figure: by its marks, across the page or half of it, its unit in the answer's box."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Label
from courseware.papers.sheets import AskedPart
from courseware.part_kinds.number.printing import KIND
from courseware.printing.page_elements import working_room


def asked(unit: str) -> AskedPart:
    return AskedPart(label="2b", kind="number", ask="How long?", marks=1, unit=unit)


@pytest.mark.parametrize(("marks", "half"), [(1, False), (1, True), (2, False), (5, False)])
def test_its_room_is_that_of_so_many_marks(marks: int, half: bool) -> None:
    assert KIND.rooms(asked("mm"), marks, half) == {"work-2b": working_room("mm", marks, half=half)}


def test_more_marks_have_more_room_and_half_a_page_less() -> None:
    heights = [KIND.rooms(asked("mm"), marks, False)["work-2b"].height for marks in (1, 2, 3, 4)]
    assert heights == sorted(set(heights))
    whole, half = (KIND.rooms(asked("mm"), 1, half)["work-2b"] for half in (False, True))
    assert half.width < whole.width / 2
    assert half.height == whole.height


@pytest.mark.parametrize(("unit", "words"), [("mm", ["Answer", "Working", "mm"]), ("", ["Answer", "Working"])])
def test_the_unit_is_printed_where_the_answer_goes(unit: str, words: list[str]) -> None:
    picture = KIND.rooms(asked(unit), 1, False)["work-2b"]
    assert sorted(mark.text for mark in picture.marks if isinstance(mark, Label)) == sorted(words)


def test_two_figures_of_one_mark_may_stand_side_by_side() -> None:
    assert KIND.may_halve
