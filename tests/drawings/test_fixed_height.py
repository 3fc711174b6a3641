"""A wall up to a fixed height, read back: the courses laid, what is fixed over them, and the room left between."""

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import boxes, level_of, plumb_dimensions

CASES = [(0, 1322, "sill"), (4, 2960, "line"), (13, 3331, "line"), (6, 2322, "lintel")]
NAMES = {"sill": "underside of sill", "lintel": "underside of lintel", "line": "top of last brick"}


def mm(sheet):
    """How many mm of wall a mm of paper is, by the height of the brick below, 65 mm (Sheet 9, opening paragraph)."""
    return min(SCALES, key=lambda n: abs(n - 65 / boxes(sheet, "none")[0].height))


@pytest.mark.parametrize(("laid", "fixed", "over"), CASES)
def test_as_many_courses_stand_as_are_laid_and_no_brick_where_the_rest_is_to_come(drawn, laid, fixed, over) -> None:
    sheet = drawn("fixed_height", {}, laid=laid, fixed=fixed, over=over)
    datum, top = level_of(sheet, "datum: brick below"), level_of(sheet, NAMES[over])
    assert datum == pytest.approx(min(brick.top for brick in boxes(sheet, "none")), abs=0.01)
    assert len(sheet.courses()) == laid
    assert (datum - top) * mm(sheet) == pytest.approx(fixed, abs=0.5)
    if laid:
        last = min(brick.top for brick in sheet.bricks)
        assert (datum - last) * mm(sheet) == pytest.approx(laid * 75, abs=0.5)
        assert level_of(sheet, f"top of course {laid}") == pytest.approx(last, abs=0.01)


@pytest.mark.parametrize(("laid", "fixed", "over"), CASES[1:])
def test_what_is_laid_and_what_is_left_make_up_the_fixed_height(drawn, laid, fixed, over) -> None:
    sheet = drawn(
        "fixed_height", {"laid_height": None, "left": None, "fixed": "FIXED"}, laid=laid, fixed=fixed, over=over
    )
    datum, top = level_of(sheet, "datum: brick below"), level_of(sheet, NAMES[over])
    whole, chain = plumb_dimensions(sheet).values()
    assert whole == pytest.approx([datum, top], abs=0.02)
    assert chain == pytest.approx([datum, level_of(sheet, f"top of course {laid}"), top], abs=0.02)
    assert "FIXED" in sheet.texts
    assert len([box for box in sheet.white if box.width == pytest.approx(20)]) == 2


@pytest.mark.parametrize("over", ["sill", "lintel"])
def test_a_sill_or_lintel_stands_over_the_height_and_reaches_past_the_wall(drawn, over) -> None:
    sheet = drawn("fixed_height", {}, laid=3, fixed=1500, over=over)
    [block] = [box for box in sheet.white if box.width > 20]
    assert block.bottom == pytest.approx(level_of(sheet, NAMES[over]), abs=0.01)
    assert block.left < min(brick.left for brick in sheet.bricks)
    assert block.right > max(brick.right for brick in sheet.bricks)
