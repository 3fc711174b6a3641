"""Answers that are no figures: what was left blank, and letters as typed."""

from __future__ import annotations

import re

from courseware.marking.judge import Verdict
from courseware.marking.part_kind import BLANK, NOT_REACHED, NotRead
from courseware.marking.read_answer import UNREACHED
from courseware.papers.part_kind import LETTERS
from courseware.papers.sitting import IssuedPart

_BETWEEN = re.compile(r"\band\b|\bthen\b|[\s,;.:/&>()+→-]+", re.IGNORECASE)
LONGEST = 80


def left_out(typed: str) -> Verdict | None:
    """The verdict on a cell in which nothing stands, or that the part was not reached; None for any other."""
    text = typed.strip()
    if not text:
        return BLANK
    return NOT_REACHED if text.casefold() in UNREACHED else None


def read_letters(typed: str, count: int) -> tuple[str, ...]:
    """The letters as typed, in order. Raises `NotRead` for one that is not on the paper or stands twice."""
    text = _BETWEEN.sub("", typed[:LONGEST]).upper()
    if not text or len(typed) > LONGEST:
        raise NotRead("no letter stands here")
    known = LETTERS[:count]
    if any(character not in known for character in text):
        raise NotRead(f"`{' '.join(typed.split())}` is not one of the letters {known[0]} to {known[-1]}")
    if len(set(text)) < len(text):
        raise NotRead("a letter stands twice")
    return tuple(text)


def read_out(typed: str, entry: IssuedPart, between: str) -> str:
    """Letters as they are read, with `between` them; '' for a blank. Raises `NotRead`."""
    if (verdict := left_out(typed)) is not None:
        return "" if verdict is BLANK else "not reached"
    return between.join(read_letters(typed.strip(), len(entry.shown)))
