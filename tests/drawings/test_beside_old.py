"""Old work and new side by side, read back: both tops level, the datums apart, and no new course to count."""

import pytest

from courseware.drawings.looks import LOOKS
from courseware.drawings.scale import SCALES
from courseware.trade import UK_73
from tests.drawings.conftest import boxes, level_of, plumb_dimensions, runs

OLD_GREY = "#" + f"{round(LOOKS['old'].fill * 255):02x}" * 3
CASES = [(13, 375), (34, 150), (20, 525)]


def mm(sheet):
    """How many mm of wall a mm of paper is: an old brick is 65 mm high."""
    return min(SCALES, key=lambda n: abs(n - 65 / boxes(sheet, OLD_GREY)[0].height))


@pytest.mark.parametrize(("courses", "drop"), CASES)
def test_the_old_wall_has_its_courses_and_the_new_outline_ends_at_its_top(drawn, courses, drop) -> None:
    sheet = drawn("beside_old", {}, UK_73, courses=courses, drop=drop)
    old = boxes(sheet, OLD_GREY)
    assert len({round(b.bottom, 1) for b in old}) == courses
    [dashed] = [points for a, closed, points in runs(sheet.root) if not closed and a.get("stroke-dasharray")]
    assert min(y for _, y in dashed) == pytest.approx(min(b.top for b in old), abs=0.01)
    assert (level_of(sheet, "new datum") - level_of(sheet, "old datum")) * mm(sheet) == pytest.approx(drop, abs=0.5)


@pytest.mark.parametrize(("courses", "drop"), CASES)
def test_two_new_courses_stand_whatever_their_number_will_be(drawn, courses, drop) -> None:
    sheet = drawn("beside_old", {}, UK_73, courses=courses, drop=drop)
    rows = sheet.courses()
    assert len(rows) == 2
    assert all(brick.height * mm(sheet) == pytest.approx(73, abs=0.5) for row in rows for brick in row)


@pytest.mark.parametrize(("courses", "drop"), CASES)
def test_the_heights_run_from_the_datums_that_they_are_measured_from(drawn, courses, drop) -> None:
    sheet = drawn(
        "beside_old", {"height": None, "drop": "DROP", "old_height": "OLD"}, UK_73, courses=courses, drop=drop
    )
    low, high = level_of(sheet, "new datum"), level_of(sheet, "old datum")
    top = min(b.top for b in boxes(sheet, OLD_GREY))
    old, new, between = plumb_dimensions(sheet).values()
    assert old == pytest.approx([high, top], abs=0.02)
    assert new == pytest.approx([low, top], abs=0.02)
    assert between == pytest.approx([low, high], abs=0.02)
