"""An order marked: by the pairs that it keeps."""

from __future__ import annotations

from collections.abc import Sequence

from courseware.banks.part import Part
from courseware.marking.judge import Verdict
from courseware.marking.lettered import left_out, read_letters, read_out
from courseware.marking.part_kind import KindInMarking, Others, Work
from courseware.papers.sitting import IssuedPart


def _mark(_: Part, entry: IssuedPart, __: Work, typed: str, ___: Others) -> Verdict:
    if verdict := left_out(typed):
        return verdict
    letters = read_letters(typed.strip(), len(entry.shown))
    return mark_order(letters, entry.before, len(entry.shown), entry.marks)


def mark_order(written: Sequence[str], before: Sequence[tuple[str, str]], count: int, of: int) -> Verdict:
    """A sequence: the share of the pairs that it keeps."""
    place = {letter: index for index, letter in enumerate(written)}
    kept = [(a, b) for a, b in before if a in place and b in place and place[a] < place[b]]
    if len(kept) == len(before) and len(written) == count:
        return Verdict(how="right", marks=of, why="Right.")
    broken = [f"{a} before {b}" for a, b in before if (a, b) not in kept]
    missing = f"{count - len(written)} left out; " if len(written) < count else ""
    told = f"not kept: {', '.join(broken)}" if broken else "every pair written is kept"
    marks = min(of * len(kept) // len(before), of - 1 if len(written) < count else of)
    why = f"{missing}{len(kept)} of {len(before)} pairs kept; {told}."
    return Verdict(how="partly" if marks else "wrong", marks=marks, why=why[:1].upper() + why[1:])


def _invented(entry: IssuedPart, draw: int) -> str:
    return entry.answer if draw < 70 else entry.answer[::-1]


def _read(_: Part, entry: IssuedPart, __: Work, typed: str) -> str:
    return read_out(typed, entry, ", then ")


KIND = KindInMarking(cell="the letters in the learner's order: C A D B", mark=_mark, invented=_invented, read=_read)
