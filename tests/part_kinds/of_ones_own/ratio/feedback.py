"""A ratio fed back: the right one, to be held against one's own."""

from __future__ import annotations

from courseware.feedback.advice import OF_ANY_KIND, said
from courseware.feedback.feedback_text import HERE, FeedbackLine
from courseware.feedback.part_kind import KindInFeedback


def sentences(part) -> tuple[str, ...]:
    return said({**OF_ANY_KIND, "wrong": "These two do not stand to each other as they should."}, part)


def lines(part) -> tuple[str, tuple[FeedbackLine, ...]]:
    return "The ratio:", (FeedbackLine(sign=HERE, say=part.issued.answer),)


KIND = KindInFeedback(sentences=sentences, lines=lines)
