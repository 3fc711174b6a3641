"""Criteria against evidence: which parts serve each, who has secure evidence for it, and what has none yet."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import Literal, NamedTuple

from courseware.jobs.observation import Observation, Verdict
from courseware.marking.marks import Mark, MarkedSitting
from courseware.papers.people import Person, people_of
from courseware.papers.sitting import IssuedExercise
from courseware.quality.criteria import Criterion, JobEvidence, PartEvidence

State = Literal["secure", "tried", "none"]
_Part = tuple[str, str, str]  # topic, exercise, the name of the part or row
_Places = tuple[int, ...]


class EvidenceMark(NamedTuple):
    """One mark as evidence."""

    sitting: str
    code: str
    label: str
    mark: Mark


class ShownOnPaper(NamedTuple):
    """What one paper shows for a piece of evidence: marks, each with the place of its part among the piece's parts."""

    sitting: str
    code: str
    places: _Places
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """A piece of evidence for a criterion: how each learner stands with it, by label, and what shows it.

    From an exercise it is marks, from a job observations; `issued` is whether there could be any.
    """

    evidence: PartEvidence | JobEvidence
    issued: bool
    states: Mapping[str, State]
    papers: Mapping[str, Sequence[ShownOnPaper]]
    observed: Mapping[str, tuple[Observation, ...]]

    @property
    def says(self) -> str:
        """The piece of evidence in words."""
        if isinstance(self.evidence, JobEvidence):
            return f"Job {self.evidence.job}" + (f": {self.evidence.line}" if self.evidence.line else "")
        return ", ".join(filter(None, (self.evidence.topic, self.evidence.exercise, self.evidence.part)))

    def shown(self, label: str) -> tuple[EvidenceMark, ...]:
        """A learner's marks for it, part by part, each part's in the order of the sittings."""
        every = (
            (place, EvidenceMark(sitting=one.sitting, code=one.code, label=mark.label, mark=mark))
            for one in self.papers.get(label, ())
            for place, mark in zip(one.places, one.marks, strict=True)
        )
        return tuple(mark for _, mark in sorted(every, key=itemgetter(0)))

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
        """The labels of learners for whom it is not secure."""
        return tuple(label for label, state in self.states.items() if state != "secure")

    def secure_pieces(self, label: str) -> tuple[Served, ...]:
        """What counted for a learner: the pieces of evidence that are secure."""
        return tuple(one for one in self.served if one.states[label] == "secure")

    @property
    def gap(self) -> str:
        """Why no learner has it secure; '' where one has, or could have."""
        if not self.served:
            return "nothing serves it"
        if not any(served.issued for served in self.served):
            if all(isinstance(served.evidence, JobEvidence) for served in self.served):
                return "nobody was observed at its job yet"
            return "its parts were not issued in these sittings"
        return "no learner has it secure" if len(self.without) == len(self.states) else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CriteriaMap:
    """The criteria in their order, and the learners."""

    rows: tuple[MapRow, ...]
    people: tuple[Person, ...]


def criteria_map(
    criteria: Sequence[Criterion], sittings: Sequence[MarkedSitting], observations: Sequence[Observation] = ()
) -> CriteriaMap:
    """The map over these sittings, taken in the order of their dates, and over work of their learners at jobs."""
    ordered = sorted(sittings, key=lambda one: (one.sitting.date, one.sitting.code))
    people = people_of([one.sitting for one in ordered])
    owner = {code: person.label for person in people for code in person.codes}
    alike = {id(paper.exercises): paper.exercises for one in ordered for paper in one.sitting.papers}
    issued = {part for exercises in alike.values() for _, part in _labelled(exercises)}
    pieces = {
        evidence: [part for part in _parts_of(evidence) if part in issued] or _parts_of(evidence)
        for criterion in criteria
        for evidence in criterion.parts
    }
    shown = _shown(ordered, owner, pieces)
    seen: dict[str, list[Observation]] = {}
    for observation in observations:
        if observation.code in owner:
            seen.setdefault(owner[observation.code], []).append(observation)
    labels = [person.label for person in people]
    rows = tuple(_row(criterion, labels, pieces, shown, issued, seen) for criterion in criteria)
    return CriteriaMap(rows=rows, people=people)


def _shown(
    sittings: Sequence[MarkedSitting], owner: Mapping[str, str], pieces: Mapping[PartEvidence, Sequence[_Part]]
) -> dict[PartEvidence, dict[str, list[ShownOnPaper]]]:
    """By piece of evidence, which is these parts, what each learner's papers show for it."""
    found: dict[PartEvidence, dict[str, list[ShownOnPaper]]] = {piece: {} for piece in pieces}
    known: dict[int, list[tuple[dict[str, list[ShownOnPaper]], _Places, tuple[str, ...]]]] = {}
    for one in sittings:
        exercises = {paper.code: paper.exercises for paper in one.sitting.papers}
        for marked in one.marked:
            own, learner = exercises[marked.code], owner[marked.code]
            if id(own) not in known:  # in outline all papers of a sitting, and of others like it, have the same
                known[id(own)] = [(found[piece], places, labels) for piece, places, labels in _asked(own, pieces)]
            by_label = {mark.label: mark for mark in marked.marks}
            for learners, places, labels in known[id(own)]:
                marks = tuple([by_label[label] for label in labels if label in by_label])
                there = places
                if len(marks) < len(labels):
                    there = tuple(place for place, label in zip(places, labels, strict=True) if label in by_label)
                if marks:
                    paper = ShownOnPaper(one.sitting.code, marked.code, there, marks)
                    learners.setdefault(learner, []).append(paper)
    return found


def _asked(
    exercises: Iterable[IssuedExercise], pieces: Mapping[PartEvidence, Sequence[_Part]]
) -> Iterator[tuple[PartEvidence, _Places, tuple[str, ...]]]:
    """Of a paper the pieces of evidence that it asks for, with the places and labels of their parts."""
    labelled = list(_labelled(exercises))
    for piece, parts in pieces.items():
        place = {part: number for number, part in enumerate(parts)}
        if own := [(place[part], label) for label, part in labelled if part in place]:
            places, labels = zip(*own, strict=True)
            yield piece, places, labels


def _labelled(exercises: Iterable[IssuedExercise]) -> Iterator[tuple[str, _Part]]:
    for exercise in exercises:
        for part in exercise.parts:
            yield part.label, (exercise.topic, exercise.exercise, part.name)


def _row(
    criterion: Criterion,
    labels: Sequence[str],
    pieces: Mapping[PartEvidence, Sequence[_Part]],
    shown: Mapping[PartEvidence, Mapping[str, Sequence[ShownOnPaper]]],
    issued: Collection[_Part],
    seen: Mapping[str, Sequence[Observation]],
) -> MapRow:
    served = (
        *(_served(evidence, labels, pieces[evidence], shown[evidence], issued) for evidence in criterion.parts),
        *(_at_a_job(evidence, labels, seen) for evidence in criterion.jobs),
    )
    needed, states = criterion.needed, [one.states for one in served]
    return MapRow(
        criterion=criterion,
        served=served,
        states={label: _together([own[label] for own in states], needed) for label in labels},
    )


def _served(
    evidence: PartEvidence,
    labels: Sequence[str],
    parts: Sequence[_Part],
    papers: Mapping[str, Sequence[ShownOnPaper]],
    issued: Collection[_Part],
) -> Served:
    return Served(
        evidence=evidence,
        issued=any(part in issued for part in parts),
        states={label: _state(papers.get(label, ()), len(parts)) for label in labels},
        papers=papers,
        observed={},
    )


def _parts_of(evidence: PartEvidence) -> list[_Part]:
    return [(evidence.topic, evidence.exercise, name) for name in evidence.marked_as]


def _at_a_job(evidence: JobEvidence, labels: Sequence[str], seen: Mapping[str, Sequence[Observation]]) -> Served:
    own = {label: tuple(one for one in seen.get(label, ()) if one.job == evidence.job) for label in labels}
    verdicts = {label: [verdict_of(one, evidence) for one in found] for label, found in own.items()}
    return Served(
        evidence=evidence,
        issued=any(own.values()),
        states={
            label: "secure" if "pass" in found else "tried" if set(found) - {"open"} else "none"
            for label, found in verdicts.items()
        },
        papers={},
        observed=own,
    )


def verdict_of(observation: Observation, evidence: PartEvidence | JobEvidence) -> Verdict:
    """How an observation stands as evidence: as a whole, or in the line that is named."""
    line = evidence.line.casefold() if isinstance(evidence, JobEvidence) else ""
    if not line:
        return observation.verdict
    return next((one.verdict for one in observation.results if one.what.casefold() == line), "open")


def _state(papers: Sequence[ShownOnPaper], parts: int) -> State:
    """How one learner stands with a piece of so many parts: secure where every part is, in whichever sitting."""
    secure = {place for one in papers for place, mark in zip(one.places, one.marks, strict=True) if mark.secure}
    if len(secure) == parts:
        return "secure"
    return "tried" if any(mark.tried for one in papers for mark in one.marks) else "none"


def _together(states: Sequence[State], needed: int) -> State:
    """Secure where as many pieces are as the rule asks for; else tried where any piece was."""
    if states.count("secure") >= needed:
        return "secure"
    return "tried" if set(states) - {"none"} else "none"
