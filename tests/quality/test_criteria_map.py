"""Criteria mapped to learners' evidence: what is secure, what is missing and why, and who is the same learner."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from courseware.jobs.observation import JudgedResult, Observation
from courseware.marking.marks import Mark, MarkedPaper, MarkedSitting
from courseware.papers.sitting import Sitting
from courseware.quality.criteria import Criterion, JobEvidence, PartEvidence
from courseware.quality.criteria_map import CriteriaMap, Served, criteria_map


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


def of_three(sitting: Sitting) -> Criterion:
    """A criterion that three parts serve, of both exercises."""
    three = [(exercise, part.name) for exercise in sitting.papers[0].exercises for part in exercise.parts][:3]
    parts = tuple(
        PartEvidence(topic=exercise.topic, exercise=exercise.exercise, part=name, marked_as=(name,))
        for exercise, name in three
    )
    return Criterion(code="1.1", says="Works out openings", parts=parts, jobs=())


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


@pytest.mark.parametrize(
    ("enough", "stands"),
    [
        (None, ["secure", "tried", "none"]),  # all of them, unless the centre says otherwise
        (2, ["secure", "secure", "none"]),
        (1, ["secure", "secure", "none"]),
        (3, ["secure", "tried", "none"]),
    ],
)  # fmt: skip
def test_a_criterion_is_secure_with_as_many_pieces_as_its_rule_asks_for(sitting, enough, stands) -> None:
    """Three pieces of evidence; the second learner has two of them right."""
    asked = replace(of_three(sitting), enough=enough)
    three = [piece.part for piece in asked.parts]
    papers = (marked(sitting, 0), marked(sitting, 1, **{three[1]: (0, "wrong")}))
    found = criteria_map([asked], [MarkedSitting(sitting=sitting, marked=papers)])
    assert states(found) == stands
    assert [one.says.split(", ")[-1] for one in found.rows[0].secure_pieces(sitting.papers[1].code)] == [
        three[0],
        three[2],
    ]


@pytest.mark.parametrize(
    ("line", "results", "state"),
    [
        ("", (("Joints", "good"), ("Face", "enough")), "secure"),
        ("", (("Joints", "good"), ("Face", "not yet")), "tried"),
        ("", (("Joints", "good"), ("Face", "")), "none"),  # not all of it was judged
        ("joints", (("Joints", "good"), ("Face", "not yet")), "secure"),
        ("joints", (("Joints", ""), ("Face", "good")), "none"),
    ],
)  # fmt: skip
def test_work_at_a_job_counts_as_a_whole_or_by_the_line_that_is_named(sitting, line, results, state) -> None:
    seen = observation(sitting, *results)
    asked = Criterion(code="1.2", says="x", parts=(), jobs=(JobEvidence(job="porch", line=line),))
    found = criteria_map([asked], [MarkedSitting(sitting=sitting, marked=())], [seen, replace(seen, job="gable")])
    assert states(found) == [state, "none", "none"]
    assert found.rows[0].served[0].observed[sitting.papers[0].code] == (seen,)


def test_a_later_day_at_a_job_counts_beside_an_earlier_one(sitting) -> None:
    first, later = (
        observation(sitting, ("Joints", "not yet")),
        observation(sitting, ("Joints", "good"), day="2026-03-01"),
    )
    asked = Criterion(code="1.2", says="x", parts=(), jobs=(JobEvidence(job="porch", line="Joints"),))
    found = criteria_map([asked], [MarkedSitting(sitting=sitting, marked=())], [first, later])
    assert states(found)[0] == "secure"


def observation(sitting: Sitting, *results: tuple[str, str], day: str = "2026-02-03") -> Observation:
    """The first learner at the porch's panel."""
    lines = tuple(JudgedResult(what=what, given=given) for what, given in results)
    return Observation(code=sitting.papers[0].code, job="porch", title="A porch", bay="2", day=day, by="J. Marsh",
                       profile="", results=lines)  # fmt: skip


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
        ((), (), "nothing serves it"),
        ((), (JobEvidence(job="porch", line=""),), "nobody was observed at its job yet"),
        ((PartEvidence(topic="Piers", exercise="pier-length", part="", marked_as=("length",)),), (), "its parts were not issued in these sittings"),
    ],
)  # fmt: skip
def test_a_criterion_without_evidence_says_why(sitting, parts, jobs, gap) -> None:
    asked = Criterion(code="1.1", says="x", parts=parts, jobs=jobs)
    found = criteria_map([asked], [MarkedSitting(sitting=sitting, marked=())])
    assert found.rows[0].gap == gap


def test_a_criterion_that_nobody_has_secure_says_so(sitting) -> None:
    found = criteria_map([criterion(sitting)], [MarkedSitting(sitting=sitting, marked=())])
    assert found.rows[0].gap == "no learner has it secure"


def at_random(sitting: Sitting, chance: random.Random) -> list[MarkedSitting]:
    """The sitting held three times for the same learners, scripts and parts missing, some handed in again."""
    held = []
    for turn in range(3):
        papers = tuple(replace(paper, code=f"{paper.code} {turn}") for paper in sitting.papers)
        own = replace(sitting, code=f"S{turn}", date=f"2026-0{turn + 1}-01", papers=papers)
        scripts = [place for place in range(3) for _ in range(chance.choice((0, 1, 1, 2)))]
        marked_papers = []
        for place in scripts:
            whole = marked(own, place)
            marks = tuple(
                replace(mark, marks=chance.choice((0, mark.of)), how=chance.choice(("right", "carried", "blank", "slip")))
                for mark in whole.marks
                if chance.random() < 0.9
            )  # fmt: skip
            marked_papers.append(replace(whole, marks=marks))
        held.append(MarkedSitting(sitting=own, marked=tuple(marked_papers)))
    return held


@pytest.mark.parametrize("seed", range(8))
def test_the_map_says_what_going_through_mark_by_mark_says(sitting, seed: int) -> None:
    """By definition: a part is secure where any of the learner's marks of it is; a piece where all its parts are."""
    held = at_random(sitting, random.Random(seed))
    asked = (of_three(sitting), criterion(sitting, code="2"))
    found = criteria_map(asked, held)
    for row in found.rows:
        for served in row.served:
            for place, label in enumerate(row.states):
                own = [
                    (part.name, mark)
                    for one in held
                    for paper in one.marked
                    if paper.code == one.sitting.papers[place].code
                    for mark in paper.marks
                    for part in one.sitting.papers[place].exercises[_place_of(sitting, served)].parts
                    if part.label == mark.label and part.name in served.evidence.marked_as
                ]
                secure = {name for name, mark in own if mark.marks == mark.of or mark.how == "carried"}
                tried = any(mark.how != "blank" for _, mark in own)
                says = "secure" if secure == set(served.evidence.marked_as) else "tried" if tried else "none"
                assert served.states[label] == says
                assert sorted((e.code, e.label) for e in served.shown(label)) == sorted(
                    (one.sitting.papers[place].code, mark.label)
                    for one in held for paper in one.marked if paper.code == one.sitting.papers[place].code
                    for mark in paper.marks if (mark.label in _labels_of(sitting, served))
                )  # fmt: skip


def _place_of(sitting: Sitting, served: Served) -> int:
    names = [exercise.exercise for exercise in sitting.papers[0].exercises]
    return names.index(served.evidence.exercise)


def _labels_of(sitting: Sitting, served: Served) -> set[str]:
    parts = sitting.papers[0].exercises[_place_of(sitting, served)].parts
    return {part.label for part in parts if part.name in served.evidence.marked_as}
