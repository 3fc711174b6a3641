"""Two markers of the same papers: where they differ, and how far they agree; nothing of one before both are done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courseware.marking.attempts import numbered_attempts
from courseware.marking.marks import Mark, MarkedPaper
from courseware.statistics.agreement import Agreement, agreement

_Key = tuple[str, int]  # a paper's code, and which of its scripts


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A part that two markers gave unlike marks; `attempt` counts the paper's scripts from 1."""

    code: str
    attempt: int
    first: Mark
    second: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Differences:
    """Two markings compared, over the papers that both have marked in full."""

    compared: tuple[str, ...]  # codes, each once
    parts: int
    differences: tuple[Difference, ...]
    agreement: Agreement
    waiting: tuple[str, ...]  # papers that the second marker has begun and not finished: nothing is told of them
    unfinished: tuple[str, ...]  # papers that the second marker has done and the first has not


def compare(first: Sequence[MarkedPaper], second: Sequence[MarkedPaper]) -> Differences:
    """The two markings, paper by paper in the order of the first's. Papers that only one has are left out.

    A paper counts once each marker has marked every part of it and nothing on it is still put to a person; until then
    neither its marks nor anything worked out from them is in what comes back.
    """
    ours, theirs = _scripts(first), _scripts(second)
    both = [key for key in ours if key in theirs]
    waiting = [key for key in both if not _whole(theirs[key], ours[key])]
    unfinished = [key for key in both if key not in waiting and not _whole(ours[key], theirs[key])]
    unfinished += [key for key in theirs if key not in ours]
    compared = [key for key in both if key not in waiting and key not in unfinished]
    pairs = [(key, one, other) for key in compared for one, other in _by_part(ours[key], theirs[key])]
    return Differences(
        compared=_codes(compared),
        parts=len(pairs),
        differences=tuple(
            Difference(code=key[0], attempt=key[1], first=one, second=other)
            for key, one, other in pairs
            if one.marks != other.marks
        ),
        agreement=agreement([one.marks for _, one, _ in pairs], [other.marks for _, _, other in pairs]),
        waiting=_codes(waiting),
        unfinished=_codes(unfinished),
    )


def _scripts(marked: Sequence[MarkedPaper]) -> dict[_Key, MarkedPaper]:
    """The papers that were written, by code and attempt."""
    return {(paper.code, attempt): paper for attempt, paper in numbered_attempts(marked) if paper.status != "absent"}


def _whole(paper: MarkedPaper, other: MarkedPaper) -> bool:
    """Whether every part that either marker has is marked here, and none is still put to a person."""
    wanted = {mark.label for mark in (*paper.marks, *other.marks)}
    return bool(wanted) and {mark.label for mark in paper.marks if mark.how != "asked"} == wanted


def _by_part(ours: MarkedPaper, theirs: MarkedPaper) -> list[tuple[Mark, Mark]]:
    others = {mark.label: mark for mark in theirs.marks}
    return [(mark, others[mark.label]) for mark in ours.marks]


def _codes(keys: Sequence[_Key]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(code for code, _ in keys))
