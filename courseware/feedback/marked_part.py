"""Each part of a marked paper with all that is known of it, and which parts tell most about where it went wrong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from courseware.banks import solve
from courseware.banks.part import Solved
from courseware.marking.marks import How, Mark, MarkedPaper, NamedSlip
from courseware.papers.compose import Sources, entries_of, given_of, issued_from
from courseware.papers.sheets import AskedPart, Key, KeyAnswer, KeyExercise
from courseware.papers.sitting import IssuedPaper, IssuedPart

MOST_TOLD = 3  # exercises on one sheet: more would be read less
_TELLING: tuple[tuple[How, ...], ...] = (
    ("slip",),
    ("family",),
    ("rounding", "unit", "tens", "swapped", "partly", "route", "carried", "right"),  # the last three: not full marks
    ("wrong", "decided", "withheld", "unknown", "elsewhere"),
    ("blank", "unreached"),
)


class NoMarks(ValueError):
    """A paper without marks, or marks that are not this paper's: there is no feedback to give."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedPart:
    """One part, or one row of a table, as asked, as solved, as issued and as marked."""

    number: int  # of its exercise
    place: int  # of its part in the exercise, from 0
    exercise: KeyExercise
    asked: AskedPart
    ask: str  # the question, or the row's item
    unit: str
    note: str  # how to round
    solved: Solved
    answer: KeyAnswer
    issued: IssuedPart
    mark: Mark

    @property
    def lost(self) -> bool:
        """Whether marks were lost, as far as that is settled."""
        return self.mark.marks < self.mark.of and self.mark.how != "asked"

    @property
    def secure(self) -> bool:
        return self.mark.marks == self.mark.of


def marked_parts(paper: IssuedPaper, key: Key, marked: MarkedPaper, sources: Sources) -> tuple[MarkedPart, ...]:
    """Every part of a paper in order. Raises `NoMarks` where `marked` has none, or not this paper's."""
    if not marked.marks:
        raise NoMarks(f"paper {paper.code} has no marks: it was not handed in")
    marks = {mark.label: mark for mark in marked.marks}
    labels = [part.label for part in paper.parts]
    if marked.code != paper.code or labels != [mark.label for mark in marked.marks]:
        raise NoMarks(f"the marks of paper {marked.code} do not go with paper {paper.code}")
    found: list[MarkedPart] = []
    for issued, keyed in zip(paper.exercises, key.exercises, strict=True):
        _, exercise = issued_from(issued, sources)
        solved = solve(exercise, given_of(exercise, issued))
        entries = entries_of(exercise, issued, keyed.asked.number)
        for place, (part, own, (asked, answers)) in enumerate(zip(solved, entries, keyed.by_part, strict=True)):
            for row, (solved_row, entry, answer) in enumerate(zip(part.entries, own, answers, strict=True)):
                item = asked.rows[row] if asked.rows else asked
                found.append(
                    MarkedPart(
                        number=keyed.asked.number,
                        place=place,
                        exercise=keyed,
                        asked=asked,
                        ask=asked.rows[row].say if asked.rows else asked.ask,
                        unit=item.unit,
                        note=item.note,
                        solved=solved_row,
                        answer=answer,
                        issued=entry,
                        mark=marks[entry.label],
                    )
                )
    return tuple(found)


def most_telling(parts: Sequence[MarkedPart], earlier: Sequence[NamedSlip]) -> tuple[MarkedPart, ...]:
    """Of each exercise the earliest part that lost marks; the most telling first, not more than three.

    A slip that repeats tells most, then one that has a name, then a figure that was nearly right; a blank tells least.
    """
    firsts = [
        next(part for part in own if part.lost)
        for own in (tuple(group) for _, group in groupby(parts, lambda part: part.number))
        if any(part.lost for part in own)
    ]

    def telling(part: MarkedPart) -> tuple[bool, int, int, int]:
        rank = next(place for place, hows in enumerate(_TELLING) if part.mark.how in hows)
        lost = sum(p.mark.of - p.mark.marks for p in parts if p.number == part.number)
        return times_seen(part, parts, earlier) < 2, rank, -lost, part.number

    return tuple(sorted(firsts, key=telling)[:MOST_TOLD])


def times_seen(part: MarkedPart, parts: Sequence[MarkedPart], earlier: Sequence[NamedSlip]) -> int:
    """How often the commonest slip of a part was named, in this script and in `earlier` ones.

    The same place in the bank is the same slip, and so are the same words. A figure that several slips give names none.
    """
    named = [slip for one in parts for slip in certain_slips(one)]
    return max((sum(_same(slip, other) for other in (*named, *earlier)) for slip in certain_slips(part)), default=0)


def certain_slips(part: MarkedPart) -> tuple[NamedSlip, ...]:
    """The slips that a part's answer names beyond doubt."""
    return part.mark.slips if part.mark.how in {"slip", "partly", "wrong"} else ()


def _same(one: NamedSlip, other: NamedSlip) -> bool:
    return one.key == other.key or one.says == other.says
