"""A centre's criteria: its file read with every fault, and mapped to parts and to learners' evidence."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import openpyxl
import pytest

from courseware.banks import FileFaulty, read_bank
from courseware.marking.marks import Mark, MarkedPaper, MarkedSitting
from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting
from courseware.quality.criteria import Criterion, JobEvidence, PartEvidence, criteria_of, offer
from courseware.quality.criteria_map import CriteriaMap, criteria_map, people_of
from courseware.quality.criteria_sheet import criteria_sheet, criteria_workbook, named
from courseware.settings.read import read_settings

BANK = b"""\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 2 to 9}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        unit: mm
        marks: 1
        working:
          - {say: "One joint fewer", value: bricks * module - joint, earns: method}
      - name: schedule
        kind: table
        ask: Fill in the schedule.
        rows:
          - name: two_piers
            say: Two piers
            answer: 2 * pier(bricks)
            unit: mm
            marks: 1
            working: [{say: "Twice", value: 2 * (bricks * module - joint)}]
          - name: three_piers
            say: Three piers
            answer: 3 * pier(bricks)
            unit: mm
            marks: 1
            working: [{say: "Three times", value: 3 * (bricks * module - joint)}]
"""
OFFERED = offer([read_bank(BANK, "piers_and_walls.yaml")], {"porch": ("Joints", "Left diagonal")})
GOOD = """\
criteria:
  - code: "1.1"
    says: Works out piers
    evidence:
      - {topic: Piers, exercise: pier-length, part: length}
      - {topic: piers_and_walls, exercise: pier-length, part: schedule}
      - {topic: piers, exercise: pier-length}
      - {topic: Piers, exercise: pier-length, part: three_piers}
  - code: "1.2"
    says: Builds to tolerance
    evidence: [{job: porch}, {job: porch, line: joints}]
  - {code: "1.3", says: Works safely}
"""


def read(data: bytes) -> tuple[Criterion, ...]:
    return criteria_of(read_settings(data, "centre.yaml"), OFFERED)


def faults(text: str | bytes) -> list[str]:
    data = text.encode() if isinstance(text, str) else text
    with pytest.raises(FileFaulty) as faulty:
        read(data)
    return [str(fault) for fault in faulty.value.faults]


def one(evidence: str) -> str:
    return f'criteria:\n  - code: "1.1"\n    says: Works out piers\n    evidence:\n      - {evidence}\n'


# ------------------------------------------------------------------ the file


def test_a_file_gives_its_criteria_with_the_evidence_meant() -> None:
    piers, tolerance, safety = read(GOOD.encode())
    assert [(part.topic, part.part, part.marked_as) for part in piers.parts] == [
        ("Piers", "length", ("length",)),
        ("Piers", "schedule", ("two_piers", "three_piers")),
        ("Piers", "", ("length", "two_piers", "three_piers")),
        ("Piers", "three_piers", ("three_piers",)),
    ]
    assert tolerance.jobs == (JobEvidence(job="porch", line=""), JobEvidence(job="porch", line="Joints"))
    assert (safety.parts, safety.jobs) == ((), ())


@pytest.mark.parametrize(
    ("evidence", "told"),
    [
        ("{topic: Peirs, exercise: pier-length}", "centre.yaml:5:17: no topic is named `Peirs`; did you mean `Piers`?"),
        ("{topic: Piers, exercise: pier-lenght}", "centre.yaml:5:34: `Piers` has no exercise `pier-lenght`; did you mean `pier-length`?"),
        ("{topic: Piers, exercise: pier-length, part: lenght}", "centre.yaml:5:53: `pier-length` has no part `lenght`; did you mean `length`?"),
        ("{job: proch}", "centre.yaml:5:15: no job is named `proch`; did you mean `porch`?"),
        ("{job: porch, line: Jonts}", "centre.yaml:5:28: the observation sheet of `porch` has no line `Jonts`; did you mean `Joints`?"),
        ("{job: porch, topic: Piers}", "centre.yaml:5:29: `topic` stands beside `job`"),
        ("{line: Joints}", "centre.yaml:5:16: `line` stands without its `job`"),
        ("{topic: Piers}", "centre.yaml:5:9: the key `exercise` is missing"),
        ("{part: length}", "centre.yaml:5:9: the key `topic` is missing"),
        ("{topic: Piers, exercize: pier-length}", "centre.yaml:5:24: the key `exercize` is not known; did you mean `exercise`?"),
        ("{topic: [Piers]}", "centre.yaml:5:10: `topic` is a list"),
        ("Piers", "centre.yaml:5:9: `evidence` is `Piers`"),
    ],
)  # fmt: skip
def test_each_fault_is_told_with_its_place_and_what_was_meant(evidence, told) -> None:
    found = faults(one(evidence))
    assert any(line.startswith(told) for line in found), found


def test_all_faults_are_told_at_once() -> None:
    text = GOOD.replace("part: length", "part: x").replace("job: porch}", "job: y}").replace('"1.3"', '"1.2"')
    assert [line.split(": ")[0] for line in faults(text)] == [
        "centre.yaml:5:53",
        "centre.yaml:11:22",
        "centre.yaml:12:12",
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "centre.yaml:1:1: the key `criteria` is missing"),
        ("name: Brookfield\n", "centre.yaml:1:1: the key `criteria` is missing"),
        ("criteria: []\n", "`criteria` is an empty list"),
        ("- a\n", "not a map of keys"),
        ("criteria:\n  - {code: '', says: x}\n", "`code` is blank"),
        (f"criteria:\n  - {{code: a, says: {'x' * 401}}}\n", "`says` has 401 characters"),
        ("criteria:\n  - {code: 1.10, says: x}\n  - {code: 1.10, says: y}\n", "stands twice"),
        ("criteria:\n  - {says: x}\n", "the key `code` is missing"),
        ("criteria:\n  - {code: a}\n", "the key `says` is missing"),
        ("criteria:\n  - {code: 1:30, says: x}\n", "quotes"),
        ("criteria:\n  - {code: no, says: x}\n", "quotes"),
        ("criteria: &a\n  - {code: a, says: x}\n", "anchor"),
        ("criteria: *a\n", "alias"),
        ("criteria: !!python/object/apply:os.system [id]\n", "tag"),
        ("criteria:\n  - {code: a, says: x, <<: {}}\n", "merges maps"),
        ("criteria:\n  - {code: a, code: b, says: x}\n", "stands on line 2 too"),
        ("criteria: [{code: a, says: x}]\n---\nmore: x\n", "second document"),
        ("criteria:\n  - {code: a, says: 'x\u202e'}\n", "U+202E"),
        ("criteria: " + "[" * 50_000, "nested too deep"),
        (b"\xff\xfec\x00", "UTF-16"),
        (b"criteria:\n  - {code: a, says: caf\xe9}\n", "not UTF-8"),
        (b"#" * 1_000_001, "at most 1000000 are read"),
    ],
)  # fmt: skip
def test_what_is_no_file_of_criteria_is_refused(text, told) -> None:
    """The nasties of YAML, as banks meet them."""
    found = faults(text)
    assert any(told in line for line in found), found


def test_codes_stay_as_they_are_typed() -> None:
    """A code such as 1.10 is not a number."""
    (criterion,) = read(b"criteria: [{code: 1.10, says: x}]")
    assert criterion.code == "1.10"


# ------------------------------------------------------------------ the map


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


# ------------------------------------------------------------------ who is the same learner


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


# ------------------------------------------------------------------ the sheet and the workbook


@pytest.fixture
def mapped(sitting) -> tuple[CriteriaMap, list[MarkedSitting]]:
    name = first_parts(sitting)[0]
    papers = (marked(sitting, 0), marked(sitting, 1, **{name: (0, "wrong")}))
    ordered = [MarkedSitting(sitting=sitting, marked=papers)]
    unserved = Criterion(code="=1+1", says="Works safely", parts=(), jobs=(JobEvidence(job="porch", line="Joints"),))
    return criteria_map([criterion(sitting, name), unserved], ordered), ordered


def test_the_sheet_tells_first_what_has_no_evidence(mapped) -> None:
    found, ordered = mapped
    sheet = criteria_sheet(found, ordered, "centre.yaml", "2026-01-06", {})
    assert sheet.blocks[1].heading == "No evidence yet"
    assert [row[2] for row in sheet.blocks[1].table.rows] == [
        "2 learners of 3 without secure evidence",
        "seen at a job only",
    ]


def test_the_sheet_goes_by_codes_unless_names_are_given(mapped, sitting) -> None:
    found, ordered = mapped
    for names in ({}, named(found)):
        sheet = criteria_sheet(found, ordered, "centre.yaml", "2026-01-06", names)
        text = " ".join(line for block in sheet.blocks for line in block.text)
        first = sitting.papers[0]
        assert (first.learner.name in text, first.code in text) == (bool(names), not names)


def test_the_workbook_has_learners_by_criteria_and_every_piece_of_evidence(mapped, sitting) -> None:
    found, ordered = mapped
    book = openpyxl.load_workbook(BytesIO(criteria_workbook(found, ordered, "centre.yaml", "2026-01-06", {})))
    rows = list(book["Map"].values)
    assert rows[0] == ("learner", "papers", "1.1", "=1+1")
    assert book["Map"]["D1"].data_type == "s"
    assert [row[2] for row in rows[1:]] == ["secure", "tried", "–"]
    evidence = list(book["Evidence"].values)
    assert [(row[3], row[6], row[9]) for row in evidence[1:3]] == [
        (sitting.papers[0].code, "1a", "secure"),
        (sitting.papers[1].code, "1a", "tried"),
    ]
    assert evidence[3][9] == "on its sheet"
    assert [row[3] for row in list(book["No evidence yet"].values)[1:]] == [
        "tried, not secure",
        "nothing yet",
        "seen at a job only",
    ]


def test_when_nothing_is_missing_the_sheet_says_so(sitting) -> None:
    ordered = [MarkedSitting(sitting=sitting, marked=tuple(marked(sitting, place) for place in range(3)))]
    found = criteria_map([criterion(sitting)], ordered)
    sheet = criteria_sheet(found, ordered, "centre.yaml", "2026-01-06", {})
    assert "Every criterion has secure evidence from every learner." in sheet.blocks[1].text
