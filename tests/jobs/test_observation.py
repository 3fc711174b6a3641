"""What was measured and judged, and whether it passes: by the job's own targets and its tolerance profile."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from courseware.jobs.observation import JUDGED, ObservationFaulty, TypedObservation, observed
from tests.jobs.a_panel import job

WIDTH, GAUGE, LEVEL = (
    "Width of the opening",
    "Gauge, four courses of the wall",
    "Bottom run, out of level over its length",
)
TYPED = TypedObservation(learner="A-0012", by="J. Marsh", day="2026-02-03", lines={WIDTH: "910"})


def entered(**lines: str):
    return observed(job(), replace(TYPED, lines=lines), job="a-panel", code="")


def verdict(what: str, text: str) -> str:
    found = observed(job(), replace(TYPED, lines={what: text}), job="a-panel", code="")
    return next(result.verdict for result in found.results if result.what == what)


@pytest.mark.parametrize(
    ("what", "text", "passes", "source"),
    [
        # an opening of 4 bricks is 4 × 225 + 10 = 910 (Sheet 9, Table 1, column CO + joint)
        (WIDTH, "910", True, "at the target"),
        (WIDTH, "905", True, "5 mm under: sizes ± 5, common practice, no source"),
        (WIDTH, "904.9", False, "5.1 mm under"),
        (WIDTH, "915", True, "5 mm over"),
        (WIDTH, "915,1", False, "5.1 mm over, with a comma"),
        # no line asks for less than the 3 mm by which bricks may differ (BS EN 771-1, category T2)
        (GAUGE, "303", True, "four courses of 75 are 300; 3 mm over"),
        (GAUGE, "303.5", False, "3.5 mm over"),
        (LEVEL, "3", True, "8 mm in 5000 is 1.5 over 910 (NHBC Standards 2011, 1.2-S1): the bricks' own 3 holds"),
        (LEVEL, "-3", True, "out of level the other way"),
        (LEVEL, "−3.01", False, "with the minus sign that a keyboard has not"),
    ],
)
def test_a_line_passes_at_the_deviation_allowed_and_within_it(what, text, passes, source) -> None:
    assert verdict(what, text) == ("pass" if passes else "fail"), source


@pytest.mark.parametrize(
    ("text", "given", "passes"),
    [
        ("good", "good", "pass"),
        ("E", "enough", "pass"),
        ("Not yet", "not yet", "fail"),
        ("n", "not yet", "fail"),
        ("", "", "open"),
    ],
)
def test_a_judged_line_passes_where_it_is_good_or_enough(text, given, passes) -> None:
    found = entered(**{WIDTH: "910", "Joints": text})
    joints = next(result for result in found.results if result.what == "Joints")
    assert (joints.given, joints.verdict) == (given, passes)


def test_the_whole_passes_when_every_line_does_and_fails_with_one() -> None:
    lines = {line.what: str(float(line.target)) for line in job().lines} | {what: "good" for what, *_ in JUDGED}
    assert entered(**lines).verdict == "pass"
    assert entered(**{**lines, "Face": ""}).verdict == "open"
    assert entered(**{**lines, "Face": "", WIDTH: "916"}).verdict == "fail"


def test_an_observation_names_the_profile_it_was_judged_by() -> None:
    assert entered(**{WIDTH: "910"}).profile.startswith(
        "NHBC Standards 2011 (level of beds: NHBC Standards 2011, 1.2-S1"
    )
    assert next(iter(entered(**{WIDTH: "910.5"}).results)).measured == Fraction(1821, 2)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"lines": {}}, "nothing is measured and nothing judged"),
        ({"lines": {WIDTH: "about 910"}}, "Width of the opening: `about 910` is not a size in mm; write 685 or 685.5"),
        ({"lines": {WIDTH: "1,125"}}, "`1,125` is not a size"),  # which may be 1125 or 1.125
        ({"lines": {WIDTH: "1e3"}}, "`1e3` is not a size"),
        ({"lines": {WIDTH: "inf"}}, "`inf` is not a size"),
        ({"lines": {WIDTH: "٩١٠"}}, "is not a size"),
        ({"lines": {"Joints": "B"}}, "Joints: `B` is no grade; write good, enough or not yet"),
        ({"lines": {"Width of openings": "910"}}, "this job has no such line; did you mean `Width of the opening`?"),
        ({"learner": " "}, "no learner is named"),
        ({"by": ""}, "the assessor's name is missing"),
        ({"by": "J\u202e. Marsh"}, "the assessor's name is missing, or more than 80 plain characters"),
        ({"day": "3/2/2026"}, "`3/2/2026` is not a date; write it as 2026-11-25"),
        ({"comment": "x" * 1001}, "the assessor's comment has more than 1000 characters"),
        ({"bay": "\x07"}, "the bay has more than 40 characters, or some that do not show"),
        ({"sizes": {WIDTH: ("685", "5")}}, "the sheet has 685 ± 5, the job 910 ± 5: it is the sheet of another job"),
    ],
)  # fmt: skip
def test_what_cannot_be_entered_is_told_by_its_line(change, says) -> None:
    with pytest.raises(ObservationFaulty) as wrong:
        observed(job(), replace(TYPED, **change), job="a-panel", code="")
    assert says in str(wrong.value)


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(ObservationFaulty) as wrong:
        observed(job(), replace(TYPED, by="", day="", lines={WIDTH: "x", "Face": "y"}), job="a-panel", code="")
    assert [line for line, _ in wrong.value.faults] == ["", "", WIDTH, "Face"]
