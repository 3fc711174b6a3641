"""Projecting courses of a wall, read back: which they are, on which side of the eye line, and the arrises in section."""

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import SVG, level_of, plumb_dimensions, runs

FOUR = {"first": 3, "second": 9, "third": 28, "fourth": 34}
CASES = [FOUR, {"first": 10}, {"first": 29}, {"first": 6, "second": 13, "third": 30}]


def in_wall(sheet):
    """The datum, the projecting courses of the wall from below (their tops), and the scale."""
    datum = level_of(sheet, "datum")
    section = max(sheet.projecting, key=lambda brick: brick.left)
    courses = [brick for brick in sheet.projecting if brick is not section]
    lowest = min(brick.height for brick in courses)
    n = min(SCALES, key=lambda n: abs(n - 65 / lowest))
    return datum, sorted({round(brick.top, 2) for brick in courses}, reverse=True), n


@pytest.mark.parametrize("bands", CASES)
@pytest.mark.parametrize("eye", [1450, 1650])
def test_the_courses_of_those_numbers_project_and_no_other(drawn, bands, eye) -> None:
    sheet = drawn("bands", {}, eye_height=eye, **bands)
    datum, tops, n = in_wall(sheet)
    assert [(datum - top) * n for top in tops] == pytest.approx([75 * number for number in bands.values()], abs=1)
    for number, top in zip(bands.values(), tops, strict=True):
        [label] = [text for text in sheet.root.iter(f"{SVG}text") if text.text == f"course {number}"]
        assert float(label.attrib["y"]) == pytest.approx(top, abs=2.5)


@pytest.mark.parametrize("bands", CASES)
@pytest.mark.parametrize("eye", [1450, 1650])
def test_the_wall_stands_past_the_eye_line_whichever_side_its_courses_are_on(drawn, bands, eye) -> None:
    sheet = drawn("bands", {}, eye_height=eye, **bands)
    datum, _, n = in_wall(sheet)
    assert (datum - min(brick.top for brick in sheet.bricks)) * n > eye


def test_the_eye_line_is_left_out_until_a_distance_is_filled_in(drawn) -> None:
    asked = {"third_from_eye": None, "second_to_third": None}
    blank = drawn("bands", asked, eye_height=1550, **FOUR)
    assert not [a for a, _, _ in runs(blank.root) if a.get("stroke-dasharray")]
    assert "eye line" not in blank.texts
    filled = drawn("bands", {"third_from_eye": "550", "second_to_third": "1425"}, eye_height=1550, **FOUR)
    datum, _, n = in_wall(filled)
    [dashed] = [points for a, _, points in runs(filled.root) if a.get("stroke-dasharray")]
    assert (datum - dashed[0][1]) * n == pytest.approx(1550, abs=1)
    assert dashed[0][1] == pytest.approx(level_of(filled, "eye line"), abs=0.01)


@pytest.mark.parametrize(("number", "eye", "way"), [(20, 1501, "below"), (20, 1500, "below"), (20, 1499, "above")])
def test_a_distance_says_on_which_side_the_top_of_the_course_is(drawn, number, eye, way) -> None:
    sheet = drawn("bands", {"first_from_eye": "1"}, first=number, eye_height=eye)
    assert f"{number}: 1 {way}" in sheet.texts


def test_the_second_and_third_are_measured_top_to_top(drawn) -> None:
    sheet = drawn("bands", {"second_to_third": None}, eye_height=1550, **FOUR)
    _, tops, _ = in_wall(sheet)
    [ends] = plumb_dimensions(sheet).values()
    assert ends == pytest.approx([tops[1], tops[2]], abs=0.02)


def test_the_arrises_named_are_those_of_the_course_that_stands_out_to_the_left(drawn) -> None:
    sheet = drawn("bands", {}, eye_height=1550, **FOUR)
    out = max(sheet.projecting, key=lambda brick: brick.left)
    under, over = sorted((b for b in sheet.bricks if b.right > out.right), key=lambda b: -b.top)
    n = 65 / out.height
    assert under.left - out.left == over.left - out.left == pytest.approx(25 / n, abs=0.01)
    ends = [points[-1] for _, closed, points in runs(sheet.root) if not closed and len(points) == 2]
    for y in (out.top, out.bottom):
        assert any(x < out.left and abs(x - out.left) < 1 and abs(end - y) < 0.01 for x, end in ends)
