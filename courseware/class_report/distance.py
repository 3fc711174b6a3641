"""How far a class has come between two sittings of the same exercises: by exercise and by slip, without ranks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from courseware.class_report.figures import ClassFigures, OutcomeFigures, class_figures
from courseware.class_report.misconceptions import SlipWords
from courseware.marking.marks import MarkedPaper, MarkedSitting
from courseware.papers.people import LearnerKey, learner_key
from courseware.papers.sitting import Sitting
from courseware.statistics.intervals import Index, mean_of
from courseware.words import listed


class CannotCompare(ValueError):
    """Sittings that cannot be set side by side, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two sittings of the same exercises, the earlier first."""

    start: MarkedSitting
    end: MarkedSitting


@dataclass(frozen=True, slots=True, kw_only=True)
class OutcomeChange:
    """An exercise: the share of its marks that was got at the start and at the end.

    `change` is the mean difference over the learners who wrote both; None where none of them is known by name.
    """

    start: OutcomeFigures
    end: OutcomeFigures
    change: Index | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipChange:
    """What went wrong: on how many papers it was seen for certain, at the start and at the end."""

    words: str
    start: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """How far a class has come. `both` wrote at the start and at the end; the counts of papers are of all who wrote."""

    start: Sitting
    end: Sitting
    papers: tuple[int, int]
    both: int
    outcomes: tuple[OutcomeChange, ...]
    slips: tuple[SlipChange, ...]
    waiting: int  # answers that an assessor is still to look at


def pairs(sittings: Sequence[MarkedSitting]) -> tuple[Pair, ...]:
    """The sittings two and two by their exercises, each pair by its dates. Raises `CannotCompare`."""
    alike: dict[tuple[tuple[str, str], ...], list[MarkedSitting]] = {}
    for one in sittings:
        alike.setdefault(blueprint(one.sitting), []).append(one)
    for found in alike.values():
        if len(found) != 2:
            codes = listed([one.sitting.code for one in found])
            why = (
                "has no other with the same exercises" if len(found) == 1 else "have the same exercises, more than two"
            )
            raise CannotCompare(f"{codes} {why}; name a start and an end of each")
        if found[0].sitting.date == found[1].sitting.date:
            codes = listed([one.sitting.code for one in found])
            raise CannotCompare(f"{codes} are both of {found[0].sitting.date}, so neither is the start")
    return tuple(
        Pair(start=start, end=end)
        for start, end in (sorted(f, key=lambda one: one.sitting.date) for f in alike.values())
    )


def blueprint(sitting: Sitting) -> tuple[tuple[str, str], ...]:
    """The exercises of a sitting, by topic and name, in order."""
    return tuple((exercise.topic, exercise.exercise) for exercise in sitting.papers[0].exercises)


def learners_of(sitting: Sitting) -> frozenset[LearnerKey]:
    """The known learners of a sitting."""
    return frozenset(key for paper in sitting.papers if (key := learner_key(paper.learner, sitting)))


def distance(pair: Pair, words: tuple[SlipWords, SlipWords]) -> Distance:
    """The figures; `words` are what the banks of start and end count slips by.

    A part left blank counts as no marks; of a paper handed in again the first counts.
    """
    start, end = (class_figures(*one, own) for one, own in zip((pair.start, pair.end), words, strict=True))
    shares = [_shares(one, figures) for one, figures in ((pair.start, start), (pair.end, end))]
    both = [who for who in shares[0] if who in shares[1]]
    return Distance(
        start=pair.start.sitting,
        end=pair.end.sitting,
        papers=(len(start.codes), len(end.codes)),
        both=len(both),
        outcomes=tuple(
            OutcomeChange(
                start=before,
                end=after,
                change=mean_of([shares[1][who][place] - shares[0][who][place] for who in both]),
            )
            for place, (before, after) in enumerate(zip(start.outcomes, end.outcomes, strict=True))
        ),
        slips=_slips(start, end),
        waiting=sum(part.asked + part.waiting for figures in (start, end) for part in figures.parts),
    )


def _shares(one: MarkedSitting, figures: ClassFigures) -> Mapping[LearnerKey, tuple[float, ...]]:
    """The share of each exercise's marks that a learner got; of known learners alone."""
    found: dict[LearnerKey, tuple[float, ...]] = {}
    for issued, paper in figures.papers.counted:
        if key := learner_key(issued.learner, one.sitting):
            found[key] = tuple(_share(outcome, paper) for outcome in figures.outcomes)
    if len(found) < sum(issued.learner.known for issued, _ in figures.papers.counted):
        raise CannotCompare(f"two learners of {one.sitting.code} go by one name or reference; put one right first")
    return found


def _share(outcome: OutcomeFigures, paper: MarkedPaper) -> float:
    return sum(mark.marks for mark in paper.marks if mark.label in outcome.labels) / outcome.of


def _slips(start: ClassFigures, end: ClassFigures) -> tuple[SlipChange, ...]:
    """Every slip seen at either, those that are still seen first, then by how often they were seen at the start."""
    seen = [{one.words: one.learners for one in figures.misconceptions if one.times} for figures in (start, end)]
    changes = [
        SlipChange(words=words, start=seen[0].get(words, 0), end=seen[1].get(words, 0))
        for words in dict.fromkeys((*seen[0], *seen[1]))
    ]
    return tuple(sorted(changes, key=lambda one: (-one.end, -one.start, one.words)))
