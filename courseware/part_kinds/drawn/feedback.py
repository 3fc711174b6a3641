"""A drawing, or a few words, fed back: its points, with those that the assessor missed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from courseware.feedback.advice import OF_ANY_KIND, said
from courseware.feedback.feedback_text import HERE, PLAIN, STANDS, FeedbackLine
from courseware.feedback.marked_part import MarkedPart
from courseware.feedback.part_kind import KindInFeedback
from courseware.marking.marks import How
from courseware.marking.part_kind import NotRead
from courseware.part_kinds.drawn.marking import read_ticks
from courseware.part_kinds.drawn.paper import points_of

_SAYS: Mapping[How, str] = {
    **OF_ANY_KIND,
    "partly": "Some of what is looked for is there.",
    "wrong": "What is looked for is not there yet.",
    "blank": "Nothing is drawn here.",
}
_SAYS_OF_WORDS = {**_SAYS, "blank": OF_ANY_KIND["blank"]}


def _sentences(part: MarkedPart) -> tuple[str, ...]:
    return said(_SAYS_OF_WORDS if part.asked.lines else _SAYS, part)


def _lines(part: MarkedPart) -> tuple[str, tuple[FeedbackLine, ...]]:
    lead = "What the answer is to say:" if part.asked.lines else "What the drawing is to show:"
    return lead, tuple(_points(part))


def _written(_: MarkedPart) -> str:
    """Nothing: the cell holds the assessor's ticks."""
    return ""


def _squares(part: MarkedPart) -> bool:
    return not part.asked.lines


def _points(part: MarkedPart) -> Iterator[FeedbackLine]:
    points = points_of(part.answer)
    try:
        seen: tuple[bool | None, ...] = read_ticks(part.mark.written, len(points))
    except NotRead:
        seen = (None,) * len(points)
    for point, met in zip(points, seen, strict=True):
        sign = PLAIN if met is None else STANDS if met else HERE
        yield FeedbackLine(sign=sign, say=point, word="look at this again" if met is False else "")


KIND = KindInFeedback(sentences=_sentences, lines=_lines, written=_written, squares=_squares)
