"""A job tried while it is written: built, or told by key why not, with the nearest that works.

What works is common practice, no source, as the trade core has it: a surround takes a brick and three courses of the
opening, and a weave goes up in threes.
"""

from __future__ import annotations

import pytest

from courseware.jobs.tried import job_values, try_job
from courseware.settings.settings import DEFAULTS
from courseware.text_files.faults import BankFaulty
from courseware.text_files.yaml_edit import with_values
from tests.jobs.a_panel import JOB, PROFILES


def tried(*changes: tuple[str, str]):
    text = JOB
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return text, try_job(text, "job.yaml", PROFILES, DEFAULTS)


def test_a_job_that_can_be_built_is_its_task() -> None:
    _, found = tried()
    assert found.task.shape.opening.bricks == 4
    assert (found.told, found.instead) == ((), ())


@pytest.mark.parametrize(
    ("old", "new", "key", "says", "instead"),
    [
        ("courses: 15", "courses: 14", "opening", "courses go in threes", {"opening.courses": ["12", "15"]}),
        ("bricks: 4,", "bricks: 1,", "opening", "leaves no panel", {"opening.bricks": ["2"]}),
        ("projects: 25", "projects: 57", "opening", "is too much", {"projects": ["56"]}),
        ("eye_height: 1500", "eye_height: 412.5", "opening", "eye line runs along", {"eye_height": ["407.5", "417.5"]}),
        ("bricks: 8,", "bricks: 4.5,", "wall", "not long enough", {"wall.bricks": ["5"], "opening.bricks": ["3"]}),
        ("courses: 24", "courses: 19", "wall", "not high enough", {"wall.courses": ["20"], "wall.below": ["3"]}),
        ("corner: mitred", "corner: round", "opening", "use mitred or butted", {"corner": ["mitred", "butted"]}),
        ("support: returns", 'support: ""', "wall", "would stand free", {"support": ["returns", "piers", "props"]}),
        ("job: A panel\n", "job: A panel\nformat: AUSTRALIAN\n", "opening", "does not close in Australian", {"format": ["UK_METRIC"]}),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_by_its_key_with_what_would_work(old, new, key, says, instead) -> None:
    text, found = tried((old, new))
    assert found.task is None
    [told] = found.told
    assert ".".join(told.key) == key
    assert says in told.says
    offered: dict[str, list[str]] = {}
    for one in found.instead:
        offered.setdefault(".".join(one.key), []).append(one.value)
    for name, values in instead.items():
        assert offered[name][: len(values)] == values, offered
    for one in found.instead:  # whatever is offered does build
        assert try_job(with_values(text, {one.key: one.value}, "job.yaml"), "job.yaml", PROFILES, DEFAULTS).task


def test_of_two_faults_each_has_its_own_way_out() -> None:
    text, found = tried(("courses: 15", "courses: 14"), ("waste: 10", "waste: 51"))
    assert [".".join(one.key) for one in found.told] == ["opening", "waste"]
    one = next(one for one in found.instead if one.key == ("opening", "courses"))
    left = try_job(with_values(text, {one.key: one.value}, "job.yaml"), "job.yaml", PROFILES, DEFAULTS)
    assert [".".join(told.key) for told in left.told] == ["waste"]


@pytest.mark.parametrize(("text", "line"), [("job: [", 2), ("job: a\njob: b\n", 2)])
def test_what_does_not_read_is_told_by_its_line(text: str, line: int) -> None:
    found = try_job(text, "job.yaml", PROFILES, DEFAULTS)
    assert {one.key for one in found.told} == {()}
    assert any(one.says.startswith(f"line {line}: ") for one in found.told)
    assert found.instead == ()


def test_a_key_that_is_missing_or_unknown_has_a_line_of_its_own() -> None:
    _, missing = tried(("bays: 3\n", ""))
    assert "the key `bays` is missing" in missing.told[0].says
    _, unknown = tried(("bays: 3\n", "bays: 3\nroof: flat\n"))
    assert [(told.key, "`roof` is not known" in told.says) for told in unknown.told] == [(("roof",), True)]


def test_the_values_are_those_typed() -> None:
    values = job_values(JOB, "job.yaml")
    assert (values["opening", "bricks"], values["mix",], values["projects",]) == ("4", "1:5", "25")
    with pytest.raises(BankFaulty):
        job_values("a: [", "job.yaml")
