"""What stands on a learner's feedback sheet, as finished text. The fresh question's answer is kept apart from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from courseware.papers.sheets import AskedExercise, DrawingCall, Heading, KeyExercise
from courseware.settings.settings import UNSIGNED, Signed
from courseware.trade import Format

Sign = Literal["✓", "►", ""]
STANDS: Sign = "✓"
HERE: Sign = "►"
PLAIN: Sign = ""
VariantKey = tuple[str, str, tuple[tuple[str, str], ...]]  # a variant that a learner has had: topic, exercise, givens


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedbackLine:
    """A line of working, a choice, a step or a point: its sign, and the words that go with the sign."""

    sign: Sign
    say: str
    figure: str = ""
    word: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstWrong:
    """The earliest part of an exercise that lost marks, and where in it."""

    label: str
    topic: str
    ask: str
    marks: str  # "1 of 2 marks"
    written: str  # as typed, or "" where nothing stands
    says: tuple[str, ...]  # about the task
    slips: tuple[str, ...]  # in the bank's own words
    lead: str  # what the lines are
    lines: tuple[FeedbackLine, ...]
    repeated: str  # "" unless the slip has come before
    comment: str  # the assessor's own
    cautions: str  # those of the paper that hold here, by title
    drawing: DrawingCall | None
    unit: str
    worked: bool  # whether the lines are a working, and not choices, steps or points
    squares: bool  # whether the correction is drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class Secure:
    """An exercise's parts that are fully right, in the words of its questions."""

    number: int
    topic: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FreshQuestion:
    """One more question: `asked` is all that the learner sees before turning over, `key` what stands overleaf."""

    lead: str
    asked: AskedExercise
    key: KeyExercise
    had: VariantKey  # to be kept, so that it does not come again


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedbackSheet:
    """One learner's feedback sheet."""

    heading: Heading
    total: str  # "14 out of 20"
    notes: tuple[str, ...]  # what is still open or still to be settled
    secure: tuple[Secure, ...]
    wrong: tuple[FirstWrong, ...]
    comments: tuple[tuple[str, str], ...]  # label and comment, for parts that are not in `wrong`
    fresh: FreshQuestion | None
    cautions: tuple[str, ...]
    scale: Format | None
    signed: Signed = UNSIGNED
