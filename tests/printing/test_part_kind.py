"""Room for an answer, kind by kind: as much as its marks ask for."""

from __future__ import annotations

from math import inf

import pytest

from courseware.banks.part_kinds import kind_folders
from courseware.papers.compose import compose_paper
from courseware.papers.sheets import AskedPart
from courseware.printing.page_format import A4
from courseware.printing.part_kind import PRINT_KINDS, KindInPrint


@pytest.fixture(scope="module")
def part(composed) -> AskedPart:
    """A part that asks for a figure."""
    sitting, sources = composed("opening_sizes")
    exercises = compose_paper(sitting, 0, sources).exercises
    return next(part for exercise in exercises for part in exercise.parts if part.kind == "number")


def test_a_kind_that_says_nothing_has_no_pictures_and_the_whole_width(part: AskedPart) -> None:
    quiet = KindInPrint()
    assert quiet.rooms(part, 2, A4.wide, A4) == {}
    assert quiet.height(part, A4.wide, A4) < inf
    assert quiet.height(part, A4.half, A4) == inf


def test_the_pictures_of_a_room_have_names_of_their_own_and_the_width_they_are_given(part: AskedPart) -> None:
    """So that two parts on one page never take each other's."""
    for wide in (A4.wide, A4.half):
        [(name, picture)] = PRINT_KINDS["number"].rooms(part, 1, wide, A4).items()
        assert name == f"work-{part.label}"
        assert picture.width == wide


def test_tables_and_what_is_drawn_need_the_width(printed) -> None:
    parts = [
        part
        for topic in ("opening_sizes", "resource_lists")
        for e in printed(topic).paper.exercises
        for part in e.parts
    ]
    for part in parts:
        narrow = PRINT_KINDS[part.kind].height(part, A4.half, A4) < inf
        assert PRINT_KINDS[part.kind].height(part, A4.wide, A4) < inf
        if part.kind in {"table", "drawn"}:
            assert not narrow
        if part.kind in {"number", "choice"}:
            assert narrow


def test_every_kind_that_has_a_sheet_is_known_here() -> None:
    assert {"number", "choice", "order", "table", "drawn"} <= {name for name in kind_folders() if PRINT_KINDS.get(name)}
