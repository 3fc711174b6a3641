"""What a kind of part that says nothing of its own is fed back by."""

from __future__ import annotations

from typing import cast

import pytest

from courseware.feedback.marked_part import MarkedPart
from courseware.feedback.part_kind import FEEDBACK_KINDS, KindInFeedback
from courseware.marking.marks import Mark, NamedSlip


class _Part:
    """As much of a marked part as is looked at."""

    mark = Mark(
        label="1a",
        marks=0,
        of=1,
        how="slip",
        why="",
        written="900",
        slips=(NamedSlip(key="a/b/1", says="The joint was left out."), NamedSlip(key="a/b/2", says="A bed too many")),
    )


PLAIN = KindInFeedback(sentences=lambda _: (), lines=lambda _: ("", ()))


def test_slips_are_told_in_the_banks_words_each_a_sentence_and_the_cell_as_typed() -> None:
    part = cast("MarkedPart", _Part())
    assert PLAIN.slips(part) == ("The joint was left out.", "A bed too many.")
    assert PLAIN.written(part) == "900"
    assert (PLAIN.worked, PLAIN.squares(part)) == (False, False)


@pytest.mark.parametrize("kind", ["number", "choice", "order", "drawn"])
def test_every_kind_that_is_marked_by_itself_says_how_it_is_fed_back(kind: str) -> None:
    """A table is fed back row by row, a row as a figure; words are fed back as a drawing is, by their points."""
    own = FEEDBACK_KINDS[kind]
    assert isinstance(own, KindInFeedback)
    assert own.worked is (kind == "number")
