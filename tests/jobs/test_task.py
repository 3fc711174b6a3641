"""A job's file as a tutor may write it: every fault at its own place, and no wall that would go over."""

from __future__ import annotations

import pytest

from courseware.banks import BankFaulty
from courseware.jobs.task import read_task
from tests.jobs.a_panel import JOB, PROFILES


@pytest.mark.parametrize("long", ["0.5", "1.25", "6.5"])
def test_a_return_that_cannot_be_is_told_with_its_line(long: str) -> None:
    text = JOB + f"return_bricks: {long}\n"
    with pytest.raises(BankFaulty, match=r"job.yaml:16:16: .*; expected 1 to 6 bricks, in halves"):
        read_task(text.encode(), "job.yaml", PROFILES)


@pytest.mark.parametrize(("free", "support", "refused"), [(1800, "", False), (1799, "", True), (1799, "props", False)])
def test_a_wall_that_would_stand_free_above_the_centres_limit_needs_support(
    free: int, support: str, refused: bool
) -> None:
    """24 courses are 1800 mm."""
    text = JOB.replace("support: returns\n", f"support: {support}\n" if support else "") + f"free_height: {free}\n"
    if not refused:
        assert read_task(text.encode(), "job.yaml", PROFILES).shape.free_height == free
        return
    with pytest.raises(BankFaulty, match=r"would stand free and can go over.*`support: returns`, `piers` or `props`"):
        read_task(text.encode(), "job.yaml", PROFILES)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("hours: 6", "hourz: 6", "2:1: the key `hourz` is not known"),
        ("job: A panel", "jobs: A panel", "1:1: the key `jobs` is not known"),
        ("corner: mitred\n", "", "the key `corner` is missing"),
        ("{bricks: 4, courses: 15}", "{bricks: four, courses: 15}", "`bricks` is wrong"),
        ("{bricks: 4, courses: 15}", "4 by 15", "`opening` is"),
        ("tolerances: NHBC Standards 2011\n", "", "the key `tolerances` is missing"),
        ('mix: "1:5"\n', "", "the key `mix` is missing"),
    ],
)
def test_a_wrong_key_does_not_hide_later_faults(old: str, new: str, told: str) -> None:
    text = JOB.replace(old, new, 1).replace("mortar: cement", "mortar: concrete").replace("waste: 10", "waste: 7.5")
    with pytest.raises(BankFaulty) as faulty:
        read_task(text.encode(), "job.yaml", PROFILES)
    said = [str(fault) for fault in faulty.value.faults]
    assert any(told in one for one in said), said
    assert any("whole percent, such as 10" in one for one in said)
    assert any("there is no mortar `concrete`" in one for one in said)
    assert len(said) == 3, said


def test_every_figure_out_of_reason_is_told_at_its_own_place() -> None:
    text = JOB.replace("bays: 3", "bays: 41").replace("ahead: 3", "ahead: 13").replace("waste: 10", "waste: 51")
    with pytest.raises(BankFaulty) as faulty:
        read_task((text + "frog: 51\nbricks_vary: 21\n").encode(), "job.yaml", PROFILES)
    assert [str(fault).split(":", 3)[1:] for fault in faulty.value.faults] == [
        ["3", "7", " `bays` is out of all reason; expected 1 to 40"],
        ["10", "8", " `ahead` is out of all reason; expected 1 to 12"],
        ["11", "8", " `waste` is out of all reason; expected 0 to 50"],
        ["16", "7", " `frog` is out of all reason; expected 0 to 50"],
        ["17", "14", " `bricks_vary` is out of all reason; expected above 0, at most 20 mm"],
    ]
    at_most = JOB.replace("bays: 3", "bays: 40").replace("ahead: 3", "ahead: 12").replace("waste: 10", "waste: 50")
    assert read_task((at_most + "frog: 50\n").encode(), "job.yaml", PROFILES).shape.bays == 40


@pytest.mark.parametrize(
    ("mortar", "mix", "message"),
    [
        ("cement", "rubbish", "is not a mix: write cement to sand as 1:5"),
        ("cement", "0:5", "is not a mix"),
        ("practice", "1:1:6", "practice mortar is lime and sand alone"),
    ],
)
def test_a_mix_that_cannot_be_mixed_is_told_with_its_line(mortar: str, mix: str, message: str) -> None:
    text = JOB.replace('mix: "1:5"', f'mix: "{mix}"').replace("mortar: cement", f"mortar: {mortar}")
    with pytest.raises(BankFaulty, match=message) as faulty:
        read_task(text.encode(), "job.yaml", PROFILES)
    assert str(faulty.value).startswith("job.yaml:12:6: ")


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "courses: 15",
            "courses: 14",
            "4:1: a basket weave of 11 courses does not close: courses go in threes; nearest: 9 and 12 courses",
        ),
        ("bricks: 4", "bricks: 1", "4:1: an opening of 1 brick by 15 courses leaves no panel"),
        ("projects: 25", "projects: 90", "4:1: a projection of 90 mm a course is too much"),
        ("eye_height: 1500", "eye_height: 412.5", "4:1: the eye line runs along the course itself"),
        ("bricks: 8", "bricks: 4.5", "5:1: the wall is not long enough for the opening, or too long"),
        ("courses: 24", "courses: 19", "5:1: the wall is not high enough for the opening, or too high"),
        (
            "NHBC Standards 2011",
            "NHBC 2011",
            "13:13: no tolerance profile is named `NHBC 2011`; did you mean `NHBC Standards 2011`?",
        ),
        ("job: A panel\n", "job: A panel\nformat: AUSTRALIAN\n", "does not close in Australian"),
        (
            "job: A panel\n",
            "job: A panel\nformat: GERMAN_FN\n",
            "2:9: no brick format is named `GERMAN_FN`; did you mean `GERMAN_NF`?",
        ),
        ("corner: mitred", "corner: round", "use mitred or butted"),
        ("hours: 6", "hours: many", "2:8: `hours` is wrong: it is not a figure"),
        ("bays: 3\n", "", "1:1: the key `bays` is missing"),
        ("bays: 3", "bays: 300", "3:7: `bays` is out of all reason; expected 1 to 40"),
    ],
)
def test_a_job_that_cannot_be_is_told_in_one_line(old, new, message) -> None:
    assert old in JOB
    with pytest.raises(BankFaulty) as told:
        read_task(JOB.replace(old, new, 1).encode(), "job.yaml", PROFILES)
    assert any(message in str(fault) for fault in told.value.faults), str(told.value)
