"""What marking asks of a kind of part: how its cell is written, read and marked."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from courseware.banks.exercise import Exercise
from courseware.banks.formulas import Value
from courseware.banks.part import Part
from courseware.banks.part_kinds import RoomKinds
from courseware.banks.wording import Wording
from courseware.marking.judge import Verdict
from courseware.papers.compose import entries_of, given_of
from courseware.papers.part_kind import Entries
from courseware.papers.sitting import IssuedExercise, IssuedPart

# By label, the answers on a sitting's papers as texts, each with the codes of the papers that have it.
Others = Mapping[str, Mapping[str, Sequence[str]]]
BLANK = Verdict(how="blank", marks=0, why="Nothing was written.")
NOT_REACHED = Verdict(how="unreached", marks=0, why="Not reached.")


class NotRead(ValueError):
    """A cell that a person must settle, and why."""


@dataclass(slots=True)
class Work:
    """An exercise of one paper while it is marked: what is right, and the learner's own answers so far."""

    issued: IssuedExercise
    exercise: Exercise
    _right: dict[str, Value] | None = None
    learner: dict[str, Value] = field(default_factory=dict)  # answers that differ from the right ones

    @property
    def entries(self) -> tuple[Entries, ...]:
        """The sitting's entries of each part. Raises `SittingFaulty` where they are not its parts'."""
        return entries_of(self.exercise, self.issued)

    def right(self) -> dict[str, Value]:
        """The givens and the right answers, as the sitting has them; put together when first asked for."""
        if self._right is None:
            scope: dict[str, Value] = dict(given_of(self.exercise, self.issued))
            for part, entries in zip(self.exercise.parts, self.entries, strict=True):
                for row, entry in zip(part.entries, entries, strict=True):
                    if (value := MARKING_KINDS[row.kind].right(row, entry, scope)) is not None:
                        scope[row.name] = value
            self._right = scope
        return self._right

    def says(self, words: Wording) -> str:
        """A bank's words on this paper, without the stop at their end."""
        return words.render(self.right(), self.issued.site).rstrip(".")


def _nothing(_: Part, __: IssuedPart, ___: Mapping[str, Value]) -> Value | None:
    return None


def _as_typed(_: Part, __: IssuedPart, ___: Work, typed: str) -> str:
    return typed.strip()


def _nothing_carried(_: Part, __: IssuedPart, ___: Work) -> str:
    return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindInMarking:
    """A kind of part on the marking sheet."""

    cell: str  # how it is written on the sheet
    mark: Callable[[Part, IssuedPart, Work, str, Others], Verdict]  # raises `NotRead` for a cell to be settled
    invented: Callable[[IssuedPart, int], str]  # an invented answer, by a draw of 0 to 99: below 62 the right one
    right: Callable[[Part, IssuedPart, Mapping[str, Value]], Value | None] = _nothing  # what later parts go by
    read: Callable[[Part, IssuedPart, Work, str], str] = _as_typed  # how a cell is read, in words; raises `NotRead`
    carried: Callable[[Part, IssuedPart, Work], str] = _nothing_carried  # what the learner's own earlier answers give


MARKING_KINDS = RoomKinds("marking", KindInMarking)


def mark_entry(row: Part, entry: IssuedPart, work: Work, typed: str, others: Others) -> Verdict:
    """One part, or one row of a table. Raises `NotRead` for a cell that a person must settle."""
    return MARKING_KINDS[row.kind].mark(row, entry, work, typed, others)
