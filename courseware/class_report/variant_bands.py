"""Whether variants of one exercise were equally hard: facility by low, middle and high answers, across sittings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from courseware.class_report.papers_counted import class_papers
from courseware.marking.marks import MarkedPaper, MarkedSitting
from courseware.papers.part_kind import holds_figure
from courseware.papers.sitting import Sitting
from courseware.statistics.intervals import Index, wilson

BANDS = ("low", "middle", "high")


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A third of the issued answers: from which to which, and the facility; None where none fell into it."""

    name: str
    least: Fraction | None
    most: Fraction | None
    facility: Index | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartBands:
    """A part with a number for an answer, over every sitting that asked it."""

    topic: str
    exercise: str
    part: str
    unit: str
    n: int
    bands: tuple[Band, Band, Band]

    @property
    def apart(self) -> bool:
        """Whether two bands' intervals have no figure in common: a difference to look at."""
        known = [band.facility.interval for band in self.bands if band.facility and band.facility.interval]
        return any(one.apart(other) for one in known for other in known)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Answered:
    answer: Fraction
    marks: int
    of: int


def variant_bands(sittings: Sequence[MarkedSitting]) -> tuple[PartBands, ...]:
    """Each part's three bands, in the order in which the parts are first met. A sitting given twice counts once."""
    found: dict[tuple[str, str, str, str], list[_Answered]] = {}
    once: dict[str, MarkedSitting] = {}
    for one in sittings:
        once.setdefault(one.sitting.code, one)
    for sitting, marked in once.values():
        for issued, paper in class_papers(sitting, marked).counted:
            marks = {mark.label: mark for mark in paper.marks}
            for exercise in issued.exercises:
                for part in exercise.parts:
                    if holds_figure(part):
                        key = (exercise.topic, exercise.exercise, part.name, part.unit)
                        mark = marks[part.label]
                        answer = _Answered(answer=Fraction(part.answer), marks=mark.marks, of=mark.of)
                        found.setdefault(key, []).append(answer)
    return tuple(
        PartBands(topic=topic, exercise=exercise, part=part, unit=unit, n=len(answered), bands=_bands(answered))
        for (topic, exercise, part, unit), answered in found.items()
    )


def bands_of(sitting: Sitting, marked: Sequence[MarkedPaper], others: Sequence[MarkedSitting]) -> tuple[PartBands, ...]:
    """The variant bands of the sitting's own parts, over it and the others."""
    own = part_labels(sitting)
    found = variant_bands((MarkedSitting(sitting, tuple(marked)), *others))
    return tuple(one for one in found if (one.topic, one.exercise, one.part) in own)


def part_labels(sitting: Sitting) -> dict[tuple[str, str, str], str]:
    """Each part's label by its topic, exercise and name."""
    exercises = sitting.papers[0].exercises
    return {(e.topic, e.exercise, part.name): part.label for e in exercises for part in e.parts}


def _bands(answered: Sequence[_Answered]) -> tuple[Band, Band, Band]:
    """Thirds by size of answer. Papers with one and the same answer stay together, in the third where most stand."""
    n = len(answered)
    thirds: tuple[list[_Answered], list[_Answered], list[_Answered]] = ([], [], [])
    below = 0
    for answer in sorted({one.answer for one in answered}):
        same = [one for one in answered if one.answer == answer]
        thirds[3 * (2 * below + len(same)) // (2 * n)].extend(same)  # by the middle of its places
        below += len(same)
    low, middle, high = (_band(name, third) for name, third in zip(BANDS, thirds, strict=True))
    return low, middle, high


def _band(name: str, third: Sequence[_Answered]) -> Band:
    if not third:
        return Band(name=name, least=None, most=None, facility=None)
    share = sum(one.marks for one in third) / sum(one.of for one in third)
    return Band(
        name=name,
        least=min(one.answer for one in third),
        most=max(one.answer for one in third),
        facility=Index(value=share, n=len(third), interval=wilson(share, len(third))),
    )
