"""A sitting: one occasion of issuing papers to a group, as sitting.json keeps it. Figures are exact text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from courseware.papers.group import Learner
from courseware.settings.settings import Settings


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceFile:
    """A bank or safety file as it was when the sitting was issued; `text` makes the sitting stand alone."""

    file: str
    sha256: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class IssuedPart:
    """A part as issued, or a row of a table.

    `answer` is exact text for numbers, letters for choices and orders, '' for drawings; `shown` is the order in
    which choices or steps were printed, by their place in the bank; `before` the pairs of letters that bind.
    """

    label: str
    name: str
    kind: str
    answer: str
    unit: str
    within: str
    marks: int
    slips: tuple[tuple[str, str], ...]
    shown: tuple[int, ...] = ()
    before: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class IssuedExercise:
    """An exercise as issued: which one, its givens as exact text, the setting as printed, its parts."""

    topic: str
    exercise: str
    given: Mapping[str, str]
    site: Mapping[str, str]
    setting: str
    parts: tuple[IssuedPart, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class IssuedPaper:
    """One learner's paper."""

    code: str
    learner: Learner
    exercises: tuple[IssuedExercise, ...]

    @property
    def parts(self) -> tuple[IssuedPart, ...]:
        """Every part and row of a table, in order; the labels are the same on every paper of a sitting."""
        return tuple(part for exercise in self.exercises for part in exercise.parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sitting:
    """Everything needed to re-make and mark a sitting."""

    code: str
    title: str
    date: str  # ISO 8601
    group: str
    seed: str
    settings: Settings  # by which its sheets are printed, and its banks compiled
    version: str
    banks: tuple[SourceFile, ...]
    safety: SourceFile | None
    papers: tuple[IssuedPaper, ...]
    retake_of: str = ""  # the code of the sitting that this one takes again
    due: str = ""  # ISO 8601: when papers are to be handed in; '' where no day was set
    approved_by: str = ""  # who approved it before it was printed; '' where nobody was asked
    made_with: Mapping[str, str] = field(default_factory=dict)  # versions of what its sheets' bytes hang on, by name
