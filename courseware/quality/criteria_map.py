"""Criteria against evidence: which parts serve each, who has secure evidence for it, and what has none yet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from courseware.marking.marks import Mark, MarkedSitting
from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting
from courseware.quality.criteria import Criterion, PartEvidence

State = Literal["secure", "in part", "tried", "none"]  # "in part": some of a criterion's evidence, not all, is secure
_NOTHING = {"blank", "unreached"}
_Part = tuple[str, str, str]  # topic, exercise, the name of the part or row


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """A learner over several sittings: every paper's code, the earliest first, and the name, '' on numbered papers."""

    codes: tuple[str, ...]
    name: str

    @property
    def label(self) -> str:
        """The code that stands for the learner."""
        return self.codes[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class EvidenceMark:
    """One mark as evidence."""

    sitting: str
    code: str
    label: str
    mark: Mark

    @property
    def secure(self) -> bool:
        """Full marks, or right from the learner's own earlier answer."""
        return self.mark.marks == self.mark.of or self.mark.how == "carried"


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """A piece of evidence for a criterion: how each learner stands with it, by label, and the marks that show it."""

    evidence: PartEvidence
    issued: bool  # in any of the sittings
    states: Mapping[str, State]
    shown: Mapping[str, tuple[EvidenceMark, ...]]

    def who(self, *states: State) -> tuple[str, ...]:
        """The labels of learners who stand so."""
        return tuple(label for label, state in self.states.items() if state in states)


@dataclass(frozen=True, slots=True, kw_only=True)
class MapRow:
    """A criterion with its evidence, and how each learner stands with all of it, by label."""

    criterion: Criterion
    served: tuple[Served, ...]
    states: Mapping[str, State]

    @property
    def without(self) -> tuple[str, ...]:
        """The labels of learners with no secure evidence for it."""
        return tuple(label for label, state in self.states.items() if state in ("tried", "none"))

    @property
    def gap(self) -> str:
        """Why no learner has evidence for it from a paper; '' where one has, or could have."""
        if not self.served:
            return "seen at a job only" if self.criterion.jobs else "no part serves it"
        if not any(served.issued for served in self.served):
            return "its parts were not issued in these sittings"
        return "no learner has secure evidence" if len(self.without) == len(self.states) else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CriteriaMap:
    """The criteria in their order, and the learners."""

    rows: tuple[MapRow, ...]
    people: tuple[Person, ...]


def criteria_map(criteria: Sequence[Criterion], sittings: Sequence[MarkedSitting]) -> CriteriaMap:
    """The map over these sittings, taken in the order of their dates."""
    ordered = sorted(sittings, key=lambda one: (one.sitting.date, one.sitting.code))
    people = people_of([one.sitting for one in ordered])
    owner = {code: person.label for person in people for code in person.codes}
    shown: dict[tuple[str, _Part], list[EvidenceMark]] = {}
    for part, found in (pair for one in ordered for pair in _shown(one)):
        shown.setdefault((owner[found.code], part), []).append(found)
    issued = {
        (exercise.topic, exercise.exercise, part.name)
        for one in ordered
        for paper in one.sitting.papers
        for exercise in paper.exercises
        for part in exercise.parts
    }
    labels = [person.label for person in people]
    return CriteriaMap(rows=tuple(_row(criterion, labels, shown, issued) for criterion in criteria), people=people)


def people_of(sittings: Sequence[Sitting]) -> tuple[Person, ...]:
    """The learners of these sittings: the same reference, or without one the same name in the same group, is the same.

    Papers without a name, and namesakes that one sitting cannot tell apart, each stand for a learner of their own.
    """
    known = {id(sitting): [_identity(paper.learner, sitting) for paper in sitting.papers] for sitting in sittings}
    unclear = {who for whose in known.values() for who, count in Counter(whose).items() if count > 1}
    codes: dict[tuple[str, ...], list[str]] = {}
    names: dict[tuple[str, ...], str] = {}
    for sitting in sittings:
        for paper, identity in zip(sitting.papers, known[id(sitting)], strict=True):
            who = identity if any(identity) and identity not in unclear else ("", "", paper.code)
            if paper.code not in codes.setdefault(who, []):
                codes[who].append(paper.code)
            names[who] = paper.learner.name
    return tuple(Person(codes=tuple(found), name=names[who]) for who, found in codes.items())


def _identity(learner: Learner, sitting: Sitting) -> tuple[str, str]:
    if learner.reference:
        return learner.reference.casefold(), ""
    return ("", f"{learner.name}, {sitting.group}".casefold()) if learner.name else ("", "")


def _shown(one: MarkedSitting) -> Iterator[tuple[_Part, EvidenceMark]]:
    papers = {paper.code: paper for paper in one.sitting.papers}
    for marked in one.marked:
        names = {
            part.label: (exercise.topic, exercise.exercise, part.name)
            for exercise in papers[marked.code].exercises
            for part in exercise.parts
        }
        for mark in marked.marks:
            if mark.label in names:
                found = EvidenceMark(sitting=one.sitting.code, code=marked.code, label=mark.label, mark=mark)
                yield names[mark.label], found


def _row(
    criterion: Criterion,
    labels: Sequence[str],
    shown: Mapping[tuple[str, _Part], Sequence[EvidenceMark]],
    issued: set[_Part],
) -> MapRow:
    served = tuple(_served(evidence, labels, shown, issued) for evidence in criterion.parts)
    return MapRow(
        criterion=criterion,
        served=served,
        states={label: _together([one.states[label] for one in served]) for label in labels},
    )


def _served(
    evidence: PartEvidence,
    labels: Sequence[str],
    shown: Mapping[tuple[str, _Part], Sequence[EvidenceMark]],
    issued: set[_Part],
) -> Served:
    wanted = [(evidence.topic, evidence.exercise, name) for name in evidence.marked_as]
    wanted = [part for part in wanted if part in issued] or wanted
    own = {label: [tuple(shown.get((label, part), ())) for part in wanted] for label in labels}
    return Served(
        evidence=evidence,
        issued=any(part in issued for part in wanted),
        states={label: _state(found) for label, found in own.items()},
        shown={label: tuple(one for marks in found for one in marks) for label, found in own.items()},
    )


def _state(parts: Sequence[Sequence[EvidenceMark]]) -> State:
    """How one learner stands with a piece of evidence: secure where every part of it is, in whichever sitting."""
    if all(any(one.secure for one in marks) for marks in parts):
        return "secure"
    tried = any(one.mark.how not in _NOTHING for marks in parts for one in marks)
    return "tried" if tried else "none"


def _together(states: Sequence[State]) -> State:
    if "secure" in states:
        return "secure" if set(states) == {"secure"} else "in part"
    return "tried" if "tried" in states else "none"
