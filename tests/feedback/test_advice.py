"""What is said of a part of any kind, and which letters stand in a cell."""

from __future__ import annotations

from typing import cast

import pytest

from courseware.feedback.advice import OF_ANY_KIND, letters_written, said
from courseware.feedback.marked_part import MarkedPart
from courseware.marking.marks import How, Mark
from courseware.papers.sheets import AskedPart


class _Part:
    """As much of a marked part as is looked at."""

    def __init__(self, how: How, written: str = "", options: int = 4) -> None:
        self.mark = Mark(label="1a", marks=0, of=1, how=how, why="", written=written)
        letters = tuple((letter, "words") for letter in "ABCDEFGH"[:options])
        self.asked = AskedPart(label="1a", kind="choice", ask="Which?", marks=1, options=letters)


def part(how: How, written: str = "", options: int = 4) -> MarkedPart:
    return cast("MarkedPart", _Part(how, written, options))


@pytest.mark.parametrize(("how", "told"), [
    ("blank", ("Nothing is written here.",)),
    ("unreached", ("This part was not reached.",)),
    ("decided", ("The assessor has marked this part. Go through it together.",)),
    ("right", ()),
    ("slip", ()),
])  # fmt: skip
def test_one_sentence_for_how_a_part_was_marked_where_there_is_one(how: How, told: tuple[str, ...]) -> None:
    assert said(OF_ANY_KIND, part(how)) == told


@pytest.mark.parametrize(("written", "options", "letters"), [
    ("B", 4, ("B",)), ("a c", 4, ("A", "C")), ("C,A", 4, ("C", "A")), ("E", 4, ()), ("E", 5, ("E",)), ("about 12", 4, ()),
    ("", 4, ()),
])  # fmt: skip
def test_letters_that_stand_in_a_cell_none_where_it_cannot_be_read(written: str, options: int, letters) -> None:
    assert letters_written(part("wrong", written, options)) == letters
