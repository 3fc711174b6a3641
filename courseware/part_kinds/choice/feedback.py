"""Ticks fed back: what was ticked and what is right, in the order of the paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import cast

from courseware.feedback.advice import OF_ANY_KIND, letters_written, said
from courseware.feedback.feedback_text import HERE, PLAIN, STANDS, FeedbackLine
from courseware.feedback.marked_part import MarkedPart
from courseware.feedback.part_kind import KindInFeedback
from courseware.marking.marks import How
from courseware.part_kinds.choice.bank import ChoicePart
from courseware.part_kinds.choice.paper import why_wrong

_SAYS: Mapping[How, str] = {
    **OF_ANY_KIND,
    "partly": "Some of the ticks fit.",
    "wrong": "What was ticked does not fit.",
}


def _sentences(part: MarkedPart) -> tuple[str, ...]:
    return said(_SAYS, part)


def _lines(part: MarkedPart) -> tuple[str, tuple[FeedbackLine, ...]]:
    return "The choices:", tuple(_choices(part))


def _slips(_: MarkedPart) -> tuple[str, ...]:
    """None: a choice has its words beside the choice itself."""
    return ()


def _choices(part: MarkedPart) -> Iterator[FeedbackLine]:
    """What was ticked and what is right, in the order of the paper; then why, where one is right."""
    ticked, several = letters_written(part), cast("ChoicePart", part.solved.part).several
    noted = why_wrong(part.answer)
    right = part.issued.answer.split(",")
    for letter, say in part.asked.options:
        if letter in ticked and letter in right:
            yield FeedbackLine(sign=STANDS, say=f"{letter}: {say}")
        elif letter in ticked:
            word = "this one does not fit" + (f". {noted[letter]}" if letter in noted else "")
            yield FeedbackLine(sign=HERE, say=f"{letter}: {say}", word=word)
        elif letter in right:
            word = "this one fits as well" if several and ticked else "this one fits"
            yield FeedbackLine(sign=HERE if several and ticked else PLAIN, say=f"{letter}: {say}", word=word)
    for line in part.answer.working:
        yield FeedbackLine(sign=PLAIN, say=line.say, figure=line.figure)


KIND = KindInFeedback(sentences=_sentences, lines=_lines, slips=_slips)
