"""Room for an answer, kind by kind: as much as its marks ask for."""

from __future__ import annotations

import pytest

from courseware.banks.part_kinds import kind_folders
from courseware.drawings.picture import Picture
from courseware.papers.compose import compose_paper
from courseware.papers.sheets import AskedPart
from courseware.printing.part_kind import PRINT_KINDS, KindInPrint


@pytest.fixture(scope="module")
def part(composed) -> AskedPart:
    """A part that asks for a figure."""
    sitting, sources = composed("opening_sizes")
    exercises = compose_paper(sitting, 0, sources).exercises
    return next(part for exercise in exercises for part in exercise.parts if part.kind == "number")


def test_a_kind_that_says_nothing_has_no_pictures_and_the_whole_width(part: AskedPart) -> None:
    quiet = KindInPrint()
    assert quiet.rooms(part, 2, False) == {}
    assert not quiet.may_halve


def test_the_pictures_of_a_room_have_names_of_their_own_and_a_size(part: AskedPart) -> None:
    """So that two parts on one page never take each other's; a figure of one mark may have half the width."""
    whole, half = (PRINT_KINDS["number"].rooms(part, 1, narrow) for narrow in (False, True))
    assert list(whole) == list(half) == [f"work-{part.label}"]
    [wide], [narrow] = whole.values(), half.values()
    assert isinstance(wide, Picture)
    assert wide.width > narrow.width > 0


def test_more_marks_have_more_room(part: AskedPart) -> None:
    heights = [next(iter(PRINT_KINDS["number"].rooms(part, marks, False).values())).height for marks in (1, 2, 3)]
    assert heights == sorted(heights)
    assert heights[0] < heights[-1]


def test_only_figures_may_stand_side_by_side() -> None:
    """A table, a drawing, steps and words need the width."""
    known = {name: PRINT_KINDS.get(name) or KindInPrint() for name in kind_folders()}
    assert {name for name, kind in known.items() if kind.may_halve} == {"number"}
