"""What feedback asks of a kind of part that lost marks: what to say of it, and which lines to look at."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from courseware.banks.part_kinds import RoomKinds
from courseware.feedback.feedback_text import FeedbackLine
from courseware.feedback.marked_part import MarkedPart


def _never(_: MarkedPart) -> bool:
    return False


def _written(part: MarkedPart) -> str:
    return part.mark.written


def _named_slips(part: MarkedPart) -> tuple[str, ...]:
    return tuple(f"{slip.says.rstrip('.')}." for slip in part.mark.slips)


@dataclass(frozen=True, slots=True, kw_only=True)
class KindInFeedback:
    """A kind of part on a feedback sheet."""

    sentences: Callable[[MarkedPart], tuple[str, ...]]  # about the task, beside its slip: one or two
    lines: Callable[[MarkedPart], tuple[str, tuple[FeedbackLine, ...]]]  # what the lines are, and the lines
    slips: Callable[[MarkedPart], tuple[str, ...]] = _named_slips  # the slip and its rule in the bank's own words
    written: Callable[[MarkedPart], str] = _written  # what the learner wrote
    worked: bool = False  # whether the lines are a working, with figures
    squares: Callable[[MarkedPart], bool] = _never  # whether the correction is drawn


FEEDBACK_KINDS = RoomKinds("feedback", KindInFeedback)
