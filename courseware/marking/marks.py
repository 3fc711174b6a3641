"""What marking takes and gives: scripts as typed, marks with how each was reached, what is put to a person."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal, NamedTuple

from courseware.papers.sitting import Sitting

How = Literal[
    "right",  # the answer, within its band
    "route",  # an accepted route
    "carried",  # right from the learner's own earlier figure
    "slip",  # one named slip
    "family",  # a figure that more than one named slip gives
    "unit",  # the right figure with another unit
    "rounding",  # cut off instead of rounded, or rounded further than asked
    "tens",  # wrong power of ten
    "swapped",  # two digits changed places
    "elsewhere",  # the answer on another paper of the sitting
    "unknown",  # not recognised: see the working
    "withheld",  # the carried figure makes no sense here: see the working
    "partly",  # an order, a choice or ticks, some of it right
    "wrong",  # an order, a choice or ticks, none of it right
    "blank",  # nothing written
    "unreached",  # not reached
    "asked",  # could not be read: a person is asked
    "decided",  # by the assessor
]
PROVISIONAL: frozenset[How] = frozenset({"asked", "unknown", "withheld", "tens", "swapped", "elsewhere"})
Status = Literal["", "absent", "late", "resubmitted"]
WHOLE_PAPER = "paper"  # in place of a part: what an assessor says of the whole row


@dataclass(frozen=True, slots=True, kw_only=True)
class Script:
    """A learner's returned paper: each part's cell exactly as written, by label. `line` is its row in the sheet."""

    code: str
    cells: Mapping[str, str]
    status: Status = ""
    line: int = 0
    unread: Mapping[str, str] = field(default_factory=dict)  # by label: why a cell cannot be read at all


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """An assessor's own mark for a part (None: the mark stands), with its reason; or a comment."""

    code: str
    label: str
    marks: int | None
    reason: str
    comment: str = ""
    attempt: int = 1  # of the paper, as it stood when this was decided: a resubmitted part is marked again

    @property
    def key(self) -> tuple[str, str, int]:
        """What it is about: paper, part and attempt."""
        return self.code, self.label, self.attempt

    @property
    def words(self) -> Decision:
        """What it says, apart from the attempt that it was made on: the same words once more add nothing."""
        return replace(self, attempt=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedSlip:
    """A slip by its place in the bank, the same in every variant, and its words on this paper."""

    key: str  # "opening-for-a-panel/opening_width/1", from 1; of a choice, its place: "…/length_called/choice-2"
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """What one part, or one row of a table, earns, and how that was reached."""

    label: str
    marks: int
    of: int
    how: How
    why: str  # a sentence for the assessor, in plain words
    written: str = ""  # as typed
    slips: tuple[NamedSlip, ...] = ()
    comment: str = ""
    carried: str = field(default="", compare=False)  # what the learner's own earlier answers give, where it is another

    @property
    def provisional(self) -> bool:
        """Whether an assessor is still to look: at a cell that was not read, or at the working behind a figure."""
        return self.how in PROVISIONAL and self.marks < self.of

    @property
    def secure(self) -> bool:
        """Full marks, or right from the learner's own earlier answer."""
        return self.marks == self.of or self.how == "carried"

    @property
    def tried(self) -> bool:
        """Whether anything was written, as far as the mark tells."""
        return self.how not in ("blank", "unreached")


@dataclass(frozen=True, slots=True, kw_only=True)
class Query:
    """A cell that a person must settle: where it stands, what is written there, what is unclear."""

    code: str
    label: str  # "" where it is the whole row
    line: int
    written: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedPaper:
    """A script marked, part by part in the order of the paper; an absent learner's has no marks."""

    code: str
    status: Status
    marks: tuple[Mark, ...]

    @property
    def total(self) -> int:
        return sum(mark.marks for mark in self.marks)

    @property
    def of(self) -> int:
        return sum(mark.of for mark in self.marks)

    @property
    def provisional(self) -> tuple[str, ...]:
        """The labels of the parts whose marks an assessor is still to look at."""
        return tuple(mark.label for mark in self.marks if mark.provisional)


class MarkedSitting(NamedTuple):
    """A sitting and its papers as they stand marked."""

    sitting: Sitting
    marked: tuple[MarkedPaper, ...]
