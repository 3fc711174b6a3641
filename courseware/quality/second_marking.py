"""Two markers of the same scripts: where they differ, and how far they agree; nothing of one before both are done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from courseware.marking.attempts import numbered_attempts
from courseware.marking.marks import Mark, MarkedPaper
from courseware.papers.names import printable_text, same_name
from courseware.quality.marks_by_hand import HandMark
from courseware.statistics.agreement import Agreement, agreement

_Key = tuple[str, int]  # a paper's code, and which of its scripts


@dataclass(frozen=True, slots=True, kw_only=True)
class OneMark:
    """A mark of a part as one of the two markers gave it; `by` is '' for the first marker of the record."""

    marks: int
    of: int
    why: str
    by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A part that two markers gave unlike marks; `attempt` counts the paper's scripts from 1."""

    code: str
    attempt: int
    label: str
    written: str
    first: OneMark
    second: OneMark


@dataclass(frozen=True, slots=True, kw_only=True)
class Differences:
    """Two markings compared, over the parts that both have marked, of papers that the second has finished."""

    compared: tuple[str, ...]  # codes, each once
    both: tuple[str, ...]  # codes of those with a part that both have marked
    parts: int
    alone: int  # parts of these papers that the second alone has marked
    differences: tuple[Difference, ...]
    agreement: Agreement
    waiting: tuple[str, ...]  # papers that the second marker has begun and not finished: nothing is told of them


def compare(first: Sequence[MarkedPaper], by_hand: Sequence[HandMark], *, program_counts: bool = False) -> Differences:
    """The two markings, paper by paper in the order of the first's.

    Of the first marker those marks count that an assessor gave, and where `program_counts` the program's own reading
    too. Where the first has none, the two who marked by hand are compared. A paper counts once somebody has marked
    every part of it by hand; until then nothing of it is in what comes back.
    """
    given: dict[_Key, dict[str, dict[str, HandMark]]] = {}
    for one in by_hand:
        given.setdefault((one.code, one.attempt), {}).setdefault(same_marker(one.by), {})[one.label] = one
    waiting: list[_Key] = []
    compared: list[_Key] = []
    pairs: list[Difference] = []
    alone = 0
    for key, paper in _scripts(first).items():
        if key not in given:
            continue
        labels = {mark.label for mark in paper.marks}
        done = [marks for marks in given[key].values() if set(marks) == labels]
        if not done:
            waiting.append(key)
            continue
        compared.append(key)
        for mark in paper.marks:
            two = [*_first(mark, program_counts=program_counts), *(_second(own[mark.label], mark) for own in done)][:2]
            if len(two) < 2:
                alone += 1
                continue
            pairs.append(Difference(code=key[0], attempt=key[1], label=mark.label, written=mark.written,
                                    first=two[0], second=two[1]))  # fmt: skip
    return Differences(
        compared=_codes(compared),
        both=_codes([(pair.code, pair.attempt) for pair in pairs]),
        parts=len(pairs),
        alone=alone,
        differences=tuple(pair for pair in pairs if pair.first.marks != pair.second.marks),
        agreement=agreement([pair.first.marks for pair in pairs], [pair.second.marks for pair in pairs]),
        waiting=_codes(waiting),
    )


def same_marker(name: str) -> str:
    """What two spellings of one person's name share: capitals, spaces and stops left out."""
    return "".join(letter for letter in same_name(printable_text(name)) if letter.isalnum())


def _first(mark: Mark, *, program_counts: bool) -> Iterator[OneMark]:
    if mark.how == "decided" or (program_counts and mark.how != "asked"):
        why = " ".join(filter(None, (mark.why, mark.comment and f"Comment: {mark.comment}")))
        yield OneMark(marks=mark.marks, of=mark.of, why=why)


def _second(given: HandMark, mark: Mark) -> OneMark:
    return OneMark(marks=given.marks, of=mark.of, why=given.note, by=given.by)


def _scripts(marked: Sequence[MarkedPaper]) -> dict[_Key, MarkedPaper]:
    """The papers that were written, by code and attempt."""
    return {(paper.code, attempt): paper for attempt, paper in numbered_attempts(marked) if paper.status != "absent"}


def _codes(keys: Sequence[_Key]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(code for code, _ in keys))
