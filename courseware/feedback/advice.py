"""What is said about a part of any kind that lost marks: plain sentences about the task, never about the person."""

from __future__ import annotations

from collections.abc import Mapping

from courseware.feedback.marked_part import MarkedPart
from courseware.marking.lettered import read_letters
from courseware.marking.marks import How
from courseware.marking.part_kind import NotRead

OF_ANY_KIND: Mapping[How, str] = {
    "blank": "Nothing is written here.",
    "unreached": "This part was not reached.",
    "decided": "The assessor has marked this part. Go through it together.",
}


def said(words: Mapping[How, str], part: MarkedPart) -> tuple[str, ...]:
    """The sentence for how a part was marked, where there is one."""
    how = part.mark.how
    return (words[how],) if how in words else ()


def letters_written(part: MarkedPart) -> tuple[str, ...]:
    """The letters that stand in the cell; none where it cannot be read."""
    try:
        return read_letters(part.mark.written, len(part.asked.options))
    except NotRead:
        return ()
