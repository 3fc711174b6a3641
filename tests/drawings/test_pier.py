"""Piers and returned lengths read back from their SVG."""

from fractions import Fraction

import pytest

from courseware.drawings.scale import SCALES
from courseware.trade import FORMATS, UK_METRIC, height, pier, returned

SIZES = [("1", 6), ("3.5", 6), ("4", 9), ("12", 30), ("6.5", 1)]


def paper(sheet, size, brick):
    """That many mm of wall on this sheet."""
    n = float(brick.length) / sheet.stretchers[0].width
    return float(size) / min(SCALES, key=lambda known: abs(known - n))


@pytest.mark.parametrize("kind", ["pier", "returned"])
@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_every_brick_drawn_is_a_brick_counted(drawn, kind, name, bricks, courses) -> None:
    sheet = drawn(kind, format=FORMATS[name], bricks=bricks, courses=courses)
    assert len(sheet.stretchers) + Fraction(len(sheet.halves), 2) == Fraction(bricks) * courses
    assert len(sheet.halves) == (courses // 2 * 2 if Fraction(bricks).denominator == 1 else courses)


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_a_pier_is_as_long_and_high_as_the_trade_core_says(drawn, name, bricks, courses) -> None:
    brick = FORMATS[name]
    sheet = drawn("pier", format=brick, bricks=bricks, courses=courses)
    left, right = min(b.left for b in sheet.bricks), max(b.right for b in sheet.bricks)
    assert right - left == pytest.approx(paper(sheet, pier(bricks, brick), brick), abs=0.1)
    face = max(b.bottom for b in sheet.bricks) - min(b.top for b in sheet.bricks)
    assert face == pytest.approx(paper(sheet, height(courses, brick) - brick.bed, brick), abs=0.1)


@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_a_returned_length_is_dimensioned_to_the_face_of_the_return(drawn, bricks, courses) -> None:
    sheet = drawn("returned", {"width": None}, bricks=bricks, courses=courses)
    left = min(b.left for b in sheet.bricks)
    face = left + paper(sheet, returned(bricks), UK_METRIC)
    below = max(b.bottom for b in sheet.bricks)
    plumb = {run[0][0] for run in sheet.lines if run[0][0] == run[-1][0] and run[-1][1] > below}
    assert {round(x, 1) for x in plumb} == {round(left, 1), round(face, 1)}
    assert "return" in sheet.texts


def test_the_datum_of_a_height_is_named_where_a_height_is_drawn(drawn) -> None:
    assert drawn("pier", bricks=3).texts == ("datum: top", "of brick below")
    assert drawn("pier", {"width": None}, bricks=3).texts == ()
