"""An order fed back: the learner's own, up to the first step that stands too early."""

from __future__ import annotations

from collections.abc import Mapping

from courseware.feedback.advice import OF_ANY_KIND, letters_written, said
from courseware.feedback.feedback_text import HERE, PLAIN, STANDS, FeedbackLine
from courseware.feedback.marked_part import MarkedPart
from courseware.feedback.part_kind import KindInFeedback
from courseware.marking.marks import How

_SAYS: Mapping[How, str] = {
    **OF_ANY_KIND,
    "partly": "Part of the order works on the wall.",
    "wrong": "This order does not work on the wall yet.",
}


def _sentences(part: MarkedPart) -> tuple[str, ...]:
    return said(_SAYS, part)


def _lines(part: MarkedPart) -> tuple[str, tuple[FeedbackLine, ...]]:
    """The learner's own order up to the first step that stands too early, or what is left out of it."""
    says, written = dict(part.asked.options), letters_written(part)
    lines: list[FeedbackLine] = []
    for place, letter in enumerate(written):
        first = next((a for a, b in part.issued.before if b == letter and a not in written[:place]), None)
        if first:
            word = f"too early here: {first}, {says[first]}, comes before it"
            return "Your order, up to the first step that stands too early:", (
                *lines,
                FeedbackLine(sign=HERE, say=f"{letter}: {says[letter]}", word=word),
            )
        lines.append(FeedbackLine(sign=STANDS, say=f"{letter}: {says[letter]}"))
    if written:
        left_out = (FeedbackLine(sign=HERE, say=f"{a}: {says[a]}", word="left out") for a in says if a not in written)
        return "Your order, and what is left out of it:", (*lines, *left_out)
    start = part.issued.answer.split(",")[0]
    return "A first step to start from:", (FeedbackLine(sign=PLAIN, say=f"{start}: {says[start]}"),)


KIND = KindInFeedback(sentences=_sentences, lines=_lines)
