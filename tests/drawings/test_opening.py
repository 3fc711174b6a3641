"""Openings read back from their SVG: each brick drawn is a brick counted, and the void is the trade core's size."""

import itertools
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.drawings.opening import wall_round
from courseware.drawings.scale import SCALES
from courseware.trade import FORMATS, UK_METRIC, clear_height, opening
from tests.drawings.conftest import runs

BRICKS = st.integers(1, 24).map(lambda n: Fraction(n, 2))
SIZES = [("3", 6), ("4", 15), ("5.5", 12), ("0.5", 1), ("12", 36)]


def scale_of(sheet, brick):
    n = float(brick.length) / sheet.stretchers[0].width
    return min(SCALES, key=lambda known: abs(known - n))


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_every_brick_drawn_is_a_brick_counted(drawn, name, bricks, courses) -> None:
    sheet = drawn("opening", format=FORMATS[name], bricks=bricks, courses=courses)
    wide = Fraction(bricks)
    odd = courses // 2
    whole = wide.denominator == 1
    # two stretchers each side in one course, a stretcher and a half in the next; two courses below, two above
    assert len(sheet.halves) == (2 * odd if whole else courses)
    beside = 4 * (courses - odd) + 2 * odd if whole else 3 * courses
    across = 2 * (wide + 4 + wide + 3) if whole else 4 * (wide + Fraction(7, 2))
    assert len(sheet.stretchers) == beside + across


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_the_void_is_as_wide_and_as_high_as_the_trade_core_says(drawn, name, bricks, courses) -> None:
    brick = FORMATS[name]
    sheet = drawn("opening", format=brick, bricks=bricks, courses=courses)
    n = scale_of(sheet, brick)
    rows = sheet.courses()
    assert len(rows) == courses + 4
    sill, head = rows[1][0].top, rows[-2][0].bottom
    assert sill - head == pytest.approx(float(clear_height(courses, brick)) / n, abs=0.1)
    for row in rows[2:-2]:
        gap = max(b.left - a.right for a, b in itertools.pairwise(row))
        assert gap == pytest.approx(float(opening(bricks, brick)) / n, abs=0.1)


@given(bricks=BRICKS, courses=st.integers(1, 36), name=st.sampled_from(sorted(FORMATS)))
@settings(max_examples=60)
def test_no_perp_stands_above_a_perp_below_beside_or_above_the_opening(bricks, courses, name) -> None:
    brick = FORMATS[name]
    rows = {}
    for laid in wall_round(bricks, courses, brick):
        rows.setdefault(laid.bottom, []).append(laid)
    wide = [sorted(row, key=lambda b: b.left) for _, row in sorted(rows.items())]
    perps = [
        [(a.right + b.left) / 2 for a, b in itertools.pairwise(row) if b.left - a.right < brick.perpend * 1.01]
        for row in wide
    ]
    for low, high in itertools.pairwise(perps):
        assert min(abs(a - b) for a in low for b in high) == pytest.approx(float(brick.half))


@given(bricks=BRICKS, courses=st.integers(1, 36), name=st.sampled_from(sorted(FORMATS)))
@settings(max_examples=60)
def test_the_void_is_clear_and_half_bricks_stand_at_the_reveals_alone(bricks, courses, name) -> None:
    brick = FORMATS[name]
    wide, clear = float(opening(bricks, brick)), float(clear_height(courses, brick))
    for laid in wall_round(bricks, courses, brick):
        assert laid.right <= 1e-9 or laid.left >= wide - 1e-9 or laid.top <= 1e-9 or laid.bottom >= clear - 1e-9
        if laid.half:
            assert laid.right == pytest.approx(0) or laid.left == pytest.approx(wide)


def test_bricks_and_a_half_face_a_half_brick_with_a_stretcher() -> None:
    left, right = (
        [b for b in wall_round(Fraction(7, 2), 1, UK_METRIC) if b.bottom == 10 and test(b)]
        for test in (lambda b: b.right == 0, lambda b: b.left == 797.5)
    )
    assert [b.half for b in left + right] == [False, True]


@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_dimension_lines_run_from_reveal_to_reveal_and_from_brick_to_brick(drawn, bricks, courses) -> None:
    sheet = drawn("opening", bricks=bricks, courses=courses)
    n = scale_of(sheet, UK_METRIC)
    row = sheet.courses()[2]
    left = max(b.right for b in row if b.right <= row[0].left + 440 / n + 0.1)
    reveals = {left, left + float(opening(bricks)) / n}
    plumb = {a[0] for a, *rest in sheet.lines if rest and abs(rest[-1][0] - a[0]) < 0.001}
    assert all(any(abs(x - at) < 0.01 for x in plumb) for at in reveals)
    level = {a[1] for a, *rest in sheet.lines if rest and abs(rest[-1][1] - a[1]) < 0.001}
    rows = sheet.courses()
    assert all(any(abs(y - at) < 0.01 for y in level) for at in (rows[1][0].top, rows[-2][0].bottom))


def test_only_dimensions_named_are_drawn(drawn) -> None:
    both = drawn("opening", bricks=4, courses=12)
    width = drawn("opening", {"width": None}, bricks=4, courses=12)
    none = drawn("opening", {}, bricks=4, courses=12)
    assert [len(sheet.white) for sheet in (both, width, none)] == [2, 1, 0]
    assert len(none.stretchers) == len(both.stretchers)


def test_figures_given_are_written_and_no_others(drawn) -> None:
    sheet = drawn("opening", {"width": "910 mm", "height": None}, bricks=4, courses=12)
    assert sheet.texts == ("910 mm",)
    assert len(sheet.white) == 1


def lintel_of(sheet):
    """The heavy line over the opening: the one of that pen."""
    [line] = [points for a, closed, points in runs(sheet.root) if not closed and a.get("stroke-width") == "0.7"]
    return line


@pytest.mark.parametrize("name", FORMATS)
@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_the_lintel_lies_level_on_the_course_beside_the_opening_and_bears_150_mm_each_side(
    drawn, name, bricks, courses
) -> None:
    """Bearings of 150 mm: common practice, no source. Reveals are read from the bricks beside the opening."""
    brick = FORMATS[name]
    sheet = drawn("opening", format=brick, bricks=bricks, courses=courses)
    n = scale_of(sheet, brick)
    (x1, y1), (x2, y2) = sorted(lintel_of(sheet))
    rows = sheet.courses()
    assert y1 == y2 == pytest.approx(rows[-2][0].bottom, abs=0.002)  # under the first course that runs right across
    assert y1 == pytest.approx(rows[-3][0].top - float(brick.bed) / n, abs=0.01)  # a bed over the last one beside it
    beside = rows[2]
    left, right = max(pairs(beside), key=lambda pair: pair[1].left - pair[0].right)
    assert left.right - x1 == pytest.approx(150 / n, abs=0.01)
    assert x2 - right.left == pytest.approx(150 / n, abs=0.01)
    assert x2 - x1 == pytest.approx((float(opening(bricks, brick)) + 300) / n, abs=0.01)
    assert beside[0].left < x1 < x2 < beside[-1].right  # it bears on brickwork that is drawn


@pytest.mark.parametrize(("bricks", "courses"), SIZES)
def test_brickwork_over_the_lintel_runs_right_across_and_none_stands_under_it(drawn, bricks, courses) -> None:
    sheet = drawn("opening", bricks=bricks, courses=courses)
    (x1, y1), (x2, _) = sorted(lintel_of(sheet))
    n = scale_of(sheet, UK_METRIC)
    over = [b for b in sheet.bricks if b.bottom <= y1 + 0.002]
    assert len({round(b.top, 1) for b in over}) == 2
    for row in sheet.courses()[-2:]:
        assert row[0].left < x1
        assert row[-1].right > x2
        assert all(b.left - a.right == pytest.approx(10 / n, abs=0.01) for a, b in pairs(row))
    void = (x1 + 150 / n, x2 - 150 / n)
    sill = sheet.courses()[1][0].top
    within = [
        b for b in sheet.bricks if b.right > void[0] + 0.01 and b.left < void[1] - 0.01 and y1 < b.top < sill - 0.01
    ]
    assert within == []


def pairs(row):
    """Each brick of a course with the next one."""
    return list(itertools.pairwise(row))
