"""Gauge rods: a mark a course, and three heights of the same courses each from its own datum."""

from itertools import pairwise

import pytest

from courseware.drawings.gauge_rod import spans
from courseware.trade import FORMATS, clear_height, face_height, height


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize("courses", [3, 4, 12, 30])
def test_each_height_spans_what_the_trade_core_gives(name, courses) -> None:
    brick = FORMATS[name]
    built = {"height": height, "face_height": face_height, "clear_height": clear_height}
    for dimension, (bottom, top) in spans(courses, brick).items():
        assert top - bottom == built[dimension](courses, brick), dimension


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize("courses", [3, 4, 12, 29, 30])
def test_the_rod_has_a_mark_at_the_top_of_each_course_numbered_every_third(drawn, name, courses) -> None:
    sheet = drawn("gauge_rod", format=FORMATS[name], courses=courses)
    tops = [row[0].top for row in sheet.courses()]
    assert len(tops) == courses
    rod = max((r for r in sheet.white if r.height > 25), key=lambda r: r.height)
    marks = sorted(
        (run[0][1] for run in sheet.lines if abs(run[-1][0] - rod.right) < 0.002 and run[0][0] > rod.left), reverse=True
    )
    assert marks == pytest.approx(tops, abs=0.01)
    assert [int(text) for text in sheet.texts if text.isdigit()] == list(range(3, courses + 1, 3))


@pytest.mark.parametrize(
    ("dimension", "datum", "names"),
    [
        ("height", "height", {"top of brick below", "top of last brick"}),
        ("face_height", "face", {"underside of first brick", "top of last brick"}),
        ("clear_height", "clear", {"top of brick below", "underside of brick above"}),
        ("clear_height", "height", {"top of brick below", "top of last brick", "underside of brick above"}),
    ],
)
def test_the_datums_in_use_are_named(drawn, dimension, datum, names) -> None:
    sheet = drawn("gauge_rod", {dimension: None}, courses=8, datum=datum)
    lines = [text for text in sheet.texts if not text.isdigit()]
    assert {" ".join(pair) for pair in zip(lines[::2], lines[1::2], strict=True)} == names


def test_the_gauge_is_dimensioned_on_one_course(drawn) -> None:
    sheet = drawn("gauge_rod", {"gauge": "75 mm"}, courses=12)
    assert "75 mm" in sheet.texts
    tops = [row[0].top for row in sheet.courses()]
    rod = max((r for r in sheet.white if r.height > 25), key=lambda r: r.height)
    reach = [run for run in sheet.lines if rod.left - 1.5 < run[0][0] < rod.left and run[-1][0] < run[0][0]]
    low, high = sorted(run[0][1] for run in reach)
    assert any(abs(a - b - (high - low)) < 0.01 for a, b in pairwise(tops))
