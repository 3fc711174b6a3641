"""A wall about the eye line, read back: the line between two courses' tops, the band over it, and none to count below."""

import pytest

from courseware.drawings.scale import SCALES
from courseware.trade import courses_to_reach
from tests.drawings.conftest import level_of, plumb_dimensions, runs

CASES = [(1430, 3), (1545, 6), (1790, 9), (1650, 5)]


def rows_of(sheet):
    """The top of each course from below, with whether it projects, and the scale."""
    every = [*((b, False) for b in sheet.bricks), *((b, True) for b in sheet.projecting)]
    tops = {round(b.top, 2): out for b, out in every}
    n = min(SCALES, key=lambda n: abs(n - 65 / sheet.projecting[0].height))
    return sorted(tops.items(), reverse=True), n


@pytest.mark.parametrize(("eye", "more"), CASES)
def test_the_eye_line_lies_under_the_first_course_above_it_and_over_the_one_below(drawn, eye, more) -> None:
    sheet = drawn("above_the_eye", {}, eye_height=eye, more=more)
    rows, n = rows_of(sheet)
    [dashed] = [points for a, _, points in runs(sheet.root) if a.get("stroke-dasharray")]
    line, first = dashed[0][1], level_of(sheet, "first above")
    assert (line - first) * n == pytest.approx(courses_to_reach(eye) * 75 - eye, abs=0.5)
    tops = [top for top, _ in rows]
    assert first == pytest.approx(max(top for top in tops if top <= line + 0.01), abs=0.01)
    assert line == pytest.approx(level_of(sheet, "eye line"), abs=0.01)


@pytest.mark.parametrize(("eye", "more"), CASES)
def test_the_band_is_so_many_courses_over_the_first_and_the_rest_cannot_be_counted(drawn, eye, more) -> None:
    sheet = drawn("above_the_eye", {}, eye_height=eye, more=more)
    rows, _ = rows_of(sheet)
    assert len(rows) == 2 + 2 + 1 + more + 1  # foot, under the line, the first, up to the band, over it
    [band] = [place for place, (_, out) in enumerate(rows) if out]
    first = next(place for place, (top, _) in enumerate(rows) if abs(top - level_of(sheet, "first above")) < 0.02)
    assert band - first == more
    assert rows[band][0] == pytest.approx(level_of(sheet, "band"), abs=0.02)


def test_both_distances_start_at_the_eye_line(drawn) -> None:
    labels = {"eye_height": "1545", "first_from_eye": None, "band_from_eye": None}
    sheet = drawn("above_the_eye", labels, eye_height=1545, more=6)
    up, first, band = plumb_dimensions(sheet).values()
    line = level_of(sheet, "eye line")
    assert up == pytest.approx([level_of(sheet, "datum"), line], abs=0.02)
    assert first == pytest.approx([line, level_of(sheet, "first above")], abs=0.02)
    assert band == pytest.approx([line, level_of(sheet, "band")], abs=0.02)
    assert "1545" in sheet.texts
