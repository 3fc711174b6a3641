"""Criteria mapped to learners' evidence: what is secure, what is missing and why, and who is the same learner."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.marking.marks import Mark, MarkedPaper, MarkedSitting
from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting
from courseware.quality.criteria import Criterion, JobEvidence, PartEvidence
from courseware.quality.criteria_map import CriteriaMap, criteria_map, people_of


@pytest.fixture
def sitting(dealt) -> Sitting:
    """Three learners, two exercises on opening sizes."""
    return dealt("opening_sizes", exercises=2)


def marked(sitting: Sitting, place: int, **earned: tuple[int, str]) -> MarkedPaper:
    """A paper with every part right but those given, by name: marks and how."""
    paper = sitting.papers[place]
    marks = []
    for part in (part for exercise in paper.exercises for part in exercise.parts):
        got, how = earned.get(part.name, (part.marks, "right"))
        marks.append(Mark(label=part.label, marks=got, of=part.marks, how=how, why="", written="7"))
    return MarkedPaper(code=paper.code, status="", marks=tuple(marks))


def criterion(sitting: Sitting, *names: str, code: str = "1.1") -> Criterion:
    """A criterion that one part each of the first exercise serves; of the whole exercise without names."""
    exercise = sitting.papers[0].exercises[0]
    everything = tuple(part.name for part in exercise.parts)
    parts = tuple(
        PartEvidence(topic=exercise.topic, exercise=exercise.exercise, part=name, marked_as=(name,)) for name in names
    )
    whole = (PartEvidence(topic=exercise.topic, exercise=exercise.exercise, part="", marked_as=everything),)
    return Criterion(code=code, says="Works out openings", parts=parts or whole, jobs=())


def states(found: CriteriaMap) -> list[str]:
    return list(found.rows[0].states.values())


def first_parts(sitting: Sitting) -> list[str]:
    return [part.name for part in sitting.papers[0].exercises[0].parts]


def test_evidence_is_secure_with_full_marks_or_when_carried_and_tried_when_something_was_written(sitting) -> None:
    name = first_parts(sitting)[0]
    papers = (
        marked(sitting, 0, **{name: (1, "carried")}),
        marked(sitting, 1, **{name: (0, "unknown")}),
        marked(sitting, 2, **{name: (0, "blank")}),
    )
    found = criteria_map([criterion(sitting, name)], [MarkedSitting(sitting=sitting, marked=papers)])
    assert states(found) == ["secure", "tried", "none"]
    assert found.rows[0].without == tuple(paper.code for paper in sitting.papers[1:])


def test_an_exercise_named_as_a_whole_is_secure_when_every_part_is(sitting) -> None:
    last = first_parts(sitting)[-1]
    papers = (marked(sitting, 0), marked(sitting, 1, **{last: (0, "wrong")}))
    found = criteria_map([criterion(sitting)], [MarkedSitting(sitting=sitting, marked=papers)])
    assert states(found) == ["secure", "tried", "none"]


def test_some_evidence_of_several_is_in_part(sitting) -> None:
    first, second, *_ = first_parts(sitting)
    papers = (marked(sitting, 0), marked(sitting, 1, **{second: (0, "wrong")}))
    found = criteria_map([criterion(sitting, first, second)], [MarkedSitting(sitting=sitting, marked=papers)])
    assert states(found) == ["secure", "in part", "none"]
    assert found.rows[0].without == (sitting.papers[2].code,)


def test_evidence_from_any_sitting_counts_for_the_same_learner(sitting) -> None:
    name = first_parts(sitting)[0]
    papers = tuple(replace(paper, code=f"{paper.code} again") for paper in sitting.papers)
    later = replace(sitting, code="LATER", date="2026-02-02", papers=papers)
    wrong = marked(sitting, 0, **{name: (0, "wrong")})
    both = [
        MarkedSitting(sitting=later, marked=(marked(later, 0),)),
        MarkedSitting(sitting=sitting, marked=(wrong,)),
    ]
    assert states(criteria_map([criterion(sitting, name)], both[1:])) == ["tried", "none", "none"]
    found = criteria_map([criterion(sitting, name)], both)
    assert states(found) == ["secure", "none", "none"]
    assert found.people[0].codes == (sitting.papers[0].code, later.papers[0].code)


@pytest.mark.parametrize(
    ("parts", "jobs", "gap"),
    [
        ((), (), "no part serves it"),
        ((), (JobEvidence(job="porch", line=""),), "seen at a job only"),
        ((PartEvidence(topic="Piers", exercise="pier-length", part="", marked_as=("length",)),), (), "its parts were not issued in these sittings"),
    ],
)  # fmt: skip
def test_a_criterion_without_evidence_says_why(sitting, parts, jobs, gap) -> None:
    asked = Criterion(code="1.1", says="x", parts=parts, jobs=jobs)
    found = criteria_map([asked], [MarkedSitting(sitting=sitting, marked=())])
    assert found.rows[0].gap == gap


def test_a_criterion_that_nobody_has_secure_says_so(sitting) -> None:
    found = criteria_map([criterion(sitting)], [MarkedSitting(sitting=sitting, marked=())])
    assert found.rows[0].gap == "no learner has secure evidence"


def group(sitting: Sitting, code: str, *learners: Learner) -> Sitting:
    papers = tuple(
        replace(sitting.papers[0], code=f"{code}{number}", learner=who) for number, who in enumerate(learners)
    )
    return replace(sitting, code=code, papers=papers)


def test_the_same_reference_is_the_same_learner_under_any_name(sitting) -> None:
    one, other = (group(sitting, code, Learner(name=name, reference="12")) for code, name in (("A", "Jo"), ("B", "J.")))
    assert [person.codes for person in people_of([one, other])] == [("A0", "B0")]


def test_the_same_name_in_another_group_is_another_learner(sitting) -> None:
    one = group(sitting, "A", Learner(name="Jo Reed"))
    assert len(people_of([one, replace(group(sitting, "B", Learner(name="jo reed")), group="Other")])) == 2
    assert len(people_of([one, group(sitting, "B", Learner(name="jo reed"))])) == 1


def test_namesakes_and_papers_without_names_are_never_joined(sitting) -> None:
    twice = group(sitting, "A", Learner(name="Jo Reed"), Learner(name="Jo Reed"), Learner(name=""))
    once = group(sitting, "B", Learner(name="Jo Reed"), Learner(name=""))
    assert [person.codes for person in people_of([twice, once])] == [("A0",), ("A1",), ("A2",), ("B0",), ("B1",)]
