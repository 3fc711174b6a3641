"""`centre.yaml`: every key is optional, what is not said is as it always was, and every fault is told at its place."""

from __future__ import annotations

from dataclasses import fields

import pytest

from courseware.settings.read import read_settings
from courseware.settings.settings import (
    DEFAULTS,
    Course,
    Retention,
    Settings,
    Signed,
    WrittenCriterion,
    WrittenEvidence,
)
from courseware.settings.shapes import CentreShape
from courseware.text_files.faults import FileFaulty

WHOLE = """\
name: Brookfield Trades College
arris_rule: near
upright_joint: cross joint
mortar: cement
day_height: 900
tolerances: Training bench
signatures:
  papers: {says: This is all my own work., signed: [Learner]}
  audit: {signed: [Internal quality assurer, Centre lead]}
retention: {names: 36, scripts: always, papers: 12}
approval: required
first_marker: program
criteria:
  - {code: BRK-1, says: Works out piers, evidence: [{topic: Opening sizes, exercise: piers}]}
course: {starts: "2026-09-07", weeks: 30, without: ["2026-10-26"], topics: [course_gauge]}
"""  # invented


def read(text: str) -> Settings:
    return read_settings(text.encode(), "centre.yaml")


def faults(text: str) -> list[str]:
    with pytest.raises(FileFaulty) as faulty:
        read(text)
    return [str(fault) for fault in faulty.value.faults]


def test_every_key_of_the_file_is_a_setting() -> None:
    assert [field.name for field in fields(Settings) if field.compare] == list(CentreShape.model_fields)


def test_a_whole_file_gives_each_setting() -> None:
    found = read(WHOLE)
    assert (found.name, found.arris_rule, found.upright_joint) == ("Brookfield Trades College", "near", "cross joint")
    assert (found.mortar, found.day_height, found.tolerances) == ("cement", 900, "Training bench")
    assert found.signatures.papers == Signed(says="This is all my own work.", signed=("Learner",))
    assert found.signatures.audit == Signed(says="", signed=("Internal quality assurer", "Centre lead"))
    assert found.signatures.feedback == found.signatures.observation == Signed()
    assert found.retention == Retention(names=36, scripts=None, marks=None, papers=12)
    assert (found.approval, found.first_marker) == ("required", "program")
    [evidence] = found.criteria[0].evidence
    assert found.criteria == (WrittenCriterion(code="BRK-1", says="Works out piers", evidence=(evidence,)),)
    assert evidence == WrittenEvidence(topic="Opening sizes", exercise="piers")
    assert found.course == Course(starts="2026-09-07", weeks=30, without=("2026-10-26",), topics=("course_gauge",))


@pytest.mark.parametrize(
    "text", ["", "\n", "# nothing yet\n", "name:\n", "arris_rule: outline\nupright_joint: perpend\n"]
)
def test_what_is_not_said_is_as_it_always_was(text) -> None:
    assert read(text) == DEFAULTS == Settings()


@pytest.mark.parametrize("key", CentreShape.model_fields)
def test_each_key_stands_alone(key) -> None:
    """A file with this key and no other changes this setting and no other."""
    lines = WHOLE.split("\n")
    start = next(n for n, line in enumerate(lines) if line.startswith(f"{key}:"))
    end = next((n for n in range(start + 1, len(lines)) if not lines[n].startswith(" ")), len(lines))
    found = read("\n".join(lines[start:end]) + "\n")
    assert found.changed(CentreShape.model_fields) == (key,)


def test_a_text_over_several_lines_is_one_line() -> None:
    assert read("name: >-\n  Brookfield\n  Trades  College\n").name == "Brookfield Trades College"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("nmae: Brookfield\n", "centre.yaml:1:1: the key `nmae` is not known; did you mean `name`?"),
        ("name: [a]\n", "centre.yaml:1:1: `name` is a list; expected the centre's name"),
        ('name: " "\n', "centre.yaml:1:7: `name` is blank; expected 1 to 100 characters"),
        (f"name: {'long ' * 21}\n", "centre.yaml:1:7: `name` has 104 characters; expected 1 to 100 characters"),
        ("arris_rule: nera\n", "centre.yaml:1:13: `arris_rule` is `nera`; did you mean `near`? expected one of outline, near"),
        ("upright_joint: '{{ bricks }}'\n", "centre.yaml:1:16: `{{ bricks }}` is not a word to print"),
        ("upright_joint: perp-\n", "centre.yaml:1:16: `perp-` is not a word to print"),
        (f"upright_joint: {'p' * 31}\n", "centre.yaml:1:16: `ppp"),
        ("mortar: cemnt\n", "centre.yaml:1:9: `mortar` is `cemnt`; did you mean `cement`?"),
        ("first_marker: the program\n", "centre.yaml:1:15: `first_marker` is `the program`; did you mean `program`? expected one of person, program"),
        ("day_height: 199\n", "centre.yaml:1:13: `day_height` is out of all reason; expected 200 to 3000 mm"),
        ("day_height: 3001\n", "centre.yaml:1:13: `day_height` is out of all reason"),
        ("day_height: 1.2 m\n", "centre.yaml:1:13: `day_height` is wrong: it is not a plain whole number"),
        ("tolerances: ''\n", "centre.yaml:1:13: `tolerances` is blank"),
        ("signatures: {paper: {signed: [Learner]}}\n", "centre.yaml:1:14: the key `paper` is not known; did you mean `papers`?"),
        ("signatures: {papers: {says: x}}\n", "centre.yaml:1:14: the key `signed` is missing"),
        ("signatures: {papers: {signed: []}}\n", "centre.yaml:1:23: `signed` is an empty list"),
        ("signatures:\n  papers:\n    signed: [Learner, ' ']\n", "centre.yaml:3:23: `signed` is blank"),
        (f"signatures:\n  papers:\n    signed: [{', '.join('ABCDEFG')}]\n", "centre.yaml:3:5: 7 sign; at most 6 sign a sheet"),
        (f"signatures:\n  papers: {{says: {'x' * 301}, signed: [A]}}\n", "centre.yaml:2:18: `says` has 301 characters"),
        ("retention: {scripts: 0}\n", "centre.yaml:1:22: `scripts` is wrong: it is neither `always` nor a number of months"),
        ("retention: {scripts: 1201}\n", "centre.yaml:1:22: `scripts` is wrong"),
        ("retention: {script: 12}\n", "centre.yaml:1:13: the key `script` is not known; did you mean `scripts`?"),
        ("criteria: []\n", "centre.yaml:1:1: `criteria` is an empty list"),
        ("criteria:\n  - {code: a, say: x}\n", "centre.yaml:2:15: the key `say` is not known; did you mean `says`?"),
        ("course: {weeks: 9}\n", "centre.yaml:1:1: the key `starts` is missing"),
        ('course: {starts: "7.9.26", weeks: 9}\n', "centre.yaml:1:18: `7.9.26` is no day; expected a day such as"),
        ('course: {starts: "1999-12-31", weeks: 9}\n', "centre.yaml:1:18: `1999-12-31` is no day"),
        ('course: {starts: "2026-09-07", weeks: 4}\n', "centre.yaml:1:39: `weeks` is 4, which no topic can come back in"),
        ('course: {starts: "2026-09-07", weeks: 61}\n', "centre.yaml:1:39: `weeks` is 61"),
        ('course: {starts: "2026-09-07", weeks: 9, without: ["2026-02-30"]}\n', "centre.yaml:1:52: `2026-02-30` is no day"),
        ('course: {starts: "2026-09-07", weeks: 9, topics: [a, a]}\n', "centre.yaml:1:54: `a` stands twice"),
        ("name: no\n", "centre.yaml:1:7: `no` is not safe without quotes"),
        ("- name\n", "centre.yaml:1:1: the file is not a map of keys"),
    ],
)  # fmt: skip
def test_each_fault_is_told_with_its_place_and_what_was_expected(text, told) -> None:
    found = faults(text)
    assert found[0].startswith(told), found


def test_all_faults_are_told_at_once_in_the_order_of_the_file() -> None:
    text = "mortar: mud\nnaem: x\nretention:\n  names: soon\nday_height: 5\nsignatures: {papers: {signed: ['']}}\n"
    assert [fault.split(": ")[0] for fault in faults(text)] == [
        "centre.yaml:1:9", "centre.yaml:2:1", "centre.yaml:4:10", "centre.yaml:5:13", "centre.yaml:6:32",
    ]  # fmt: skip


def test_the_limits_themselves_are_taken() -> None:
    assert read(f"name: {'x' * 100}\n").name == "x" * 100
    assert [read(f"day_height: {mm}\n").day_height for mm in (200, 3000)] == [200, 3000]
    assert read("retention: {names: 1, marks: 1200}\n").retention == Retention(names=1, marks=1200)
    for weeks, starts in ((5, "2000-01-01"), (60, "2100-12-31")):
        found = read(f'course: {{starts: "{starts}", weeks: {weeks}}}\n').course
        assert found == Course(starts=starts, weeks=weeks)
    assert read("upright_joint: Stoßfuge\n").upright_joint == "Stoßfuge"
    assert read(f"upright_joint: {'p' * 30}\n").upright_joint == "p" * 30
