"""What stands on a learner's feedback sheet, as finished text. The fresh question's answer is kept apart from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from courseware.papers.sheet_format import STANDARD, SheetFormat
from courseware.papers.sheets import AskedExercise, DrawingCall, Heading, KeyExercise
from courseware.settings.settings import UNSIGNED, Signed

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
class LostPart:
    """A part that lost marks, in a line: what was written, what kind of slip it is, and where to look."""

    label: str
    marks: str  # "1 of 2"
    written: str  # as typed, or "" where nothing stands
    says: str
    look: str  # the line of working, the choice, the step or the point to look at; "" where none is known
    blank: bool  # whether nothing was written, or it was not reached


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMark:
    """A part's mark: `b(i)`, `1/2`, and the sign of one that is fully right, lost marks or is still open."""

    label: str  # without the number of its exercise
    marks: str
    sign: Literal["✓", "►", "?"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseMarks:
    """An exercise with the mark of each part, and what of it is secure in the words of its questions."""

    number: int
    topic: str
    secure: str
    parts: tuple[PartMark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FreshQuestion:
    """One more question: `asked` is all that the learner sees before turning the sheet, `key` its answer."""

    lead: str
    asked: AskedExercise
    key: KeyExercise
    had: VariantKey  # to be kept, so that it does not come again


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedbackSheet:
    """One learner's feedback sheet: more than fits, of which its printing chooses.

    `wrong` has the most telling first. `lost` has every part that lost marks, those of `wrong` too.
    """

    heading: Heading
    total: str  # "14 out of 20"
    notes: tuple[str, ...]  # what is still open or still to be settled
    marks: tuple[ExerciseMarks, ...]
    wrong: tuple[FirstWrong, ...]
    lost: tuple[LostPart, ...]
    comments: tuple[tuple[str, str], ...]  # label and comment
    fresh: FreshQuestion | None
    cautions: tuple[str, ...]
    marked_by: str  # "Marked by J. Marsh, 12 January 2026."; "" where nothing says so
    signed: Signed = UNSIGNED
    set_as: SheetFormat = STANDARD  # as the learner's paper was
