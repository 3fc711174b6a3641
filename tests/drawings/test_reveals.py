"""An opening as it is set out, read back: reveals of as many courses, so far apart, the centre line midway, open above."""

from itertools import pairwise

import pytest

from courseware.drawings.scale import SCALES
from courseware.trade import FORMATS, height, opening
from tests.drawings.conftest import level_dimensions, level_of, plumb_dimensions, runs

CASES = [("5", 4), ("12", 13), ("5.5", 36), ("1/2", 1)]


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize(("bricks", "courses"), CASES)
def test_the_reveals_have_their_courses_and_the_opening_its_width(drawn, name, bricks, courses) -> None:
    brick = FORMATS[name]
    sheet = drawn("reveals", {"width": None}, brick, bricks=bricks, courses=courses)
    rows, datum = sheet.courses(), level_of(sheet, "datum")
    raised = [row for row in rows if row[0].bottom < datum - 0.01]
    assert len(raised) == courses
    n = min(SCALES, key=lambda n: abs(n - float(brick.height) / rows[0][0].height))
    [(left, right, _)] = level_dimensions(sheet)
    assert (right - left) * n == pytest.approx(float(opening(bricks, brick)), abs=1)
    for row in raised:
        assert max(b.right for b in row if b.right < (left + right) / 2) == pytest.approx(left, abs=0.02)
        assert min(b.left for b in row if b.left > (left + right) / 2) == pytest.approx(right, abs=0.02)
    assert (datum - raised[-1][0].top) * n == pytest.approx(float(height(courses, brick)), abs=1)
    [centre] = [points for a, _, points in runs(sheet.root) if a.get("stroke-dasharray")]
    assert [x for x, _ in centre] == pytest.approx([(left + right) / 2] * 2, abs=0.01)


def test_the_wall_below_is_closed_up_to_the_sill_course(drawn) -> None:
    sheet = drawn("reveals", {}, bricks=6, courses=10)
    datum = level_of(sheet, "datum")
    below = [row for row in sheet.courses() if row[0].bottom > datum]
    assert len(below) == 2
    for row in below:
        gaps = [b.left - a.right for a, b in pairwise(row)]
        assert max(gaps) == pytest.approx(min(gaps), abs=0.01)
    assert below[-1][0].top == pytest.approx(datum, abs=0.01)


def test_the_height_stops_at_the_top_of_the_last_brick(drawn) -> None:
    sheet = drawn("reveals", {"height": None}, bricks=6, courses=10)
    [ends] = plumb_dimensions(sheet).values()
    assert ends == pytest.approx([level_of(sheet, "datum"), min(b.top for b in sheet.bricks)], abs=0.02)
