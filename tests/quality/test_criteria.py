"""A centre's criteria: its file read with every fault, and mapped to parts and to learners' evidence."""

from __future__ import annotations

import pytest

from courseware.banks import FileFaulty, read_bank
from courseware.quality.criteria import Criterion, JobEvidence, criteria_of, offer
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


# ------------------------------------------------------------------ rules


@pytest.mark.parametrize(
    ("rule", "needed", "says"),
    [
        ("", 2, "all 2"), ("rule: all, ", 2, "all 2"), ("rule: All of them, ", 2, "all 2"), ("rule: any, ", 1, "1 of 2"),
        ("rule: one of two, ", 1, "1 of 2"), ("rule: 2 of 2, ", 2, "all 2"), ("rule: 1 of 2, ", 1, "1 of 2"),
    ],
)  # fmt: skip
def test_a_rule_says_how_much_of_the_evidence_is_enough(rule: str, needed: int, says: str) -> None:
    text = "criteria: [{code: 'a', says: x, RULE evidence: [{job: porch, line: Joints}, {job: porch}]}]\n"
    [found] = criteria_of(read_settings(text.replace("RULE ", rule).encode(), "centre.yaml"), OFFERED)
    assert (found.needed, found.rule) == (needed, says)


@pytest.mark.parametrize("rule", ["two of three", "0 of 2", "3 of 2", "most", "of", "1 of 2 of 2", "-1 of 2", "2"])
def test_a_rule_that_cannot_be_is_told_at_its_place(rule: str) -> None:
    text = f"criteria:\n  - code: a\n    says: x\n    rule: {rule}\n    evidence: [{{job: porch, line: Joints}}, {{job: porch}}]\n"
    with pytest.raises(
        FileFaulty, match=r"centre.yaml:4:11: .* is no rule here; expected all, any, or such as `1 of 2`"
    ):
        criteria_of(read_settings(text.encode(), "centre.yaml"), OFFERED)
